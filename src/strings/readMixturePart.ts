import type { Finding } from "../audio/Finding.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import type { JointFit } from "../partials/joint/JointFit.js";
import type { UnexplainedLine } from "../partials/unexplainedLine.js";
import { isOneNote } from "../units/isOneNote.js";
import { type HeardString, hearChannels } from "./hearChannels.js";
import { hiddenStrings } from "./hiddenStrings.js";
import { isPartly } from "./isPartly.js";
import type { HiddenString, MixedStrings } from "./MixedStrings.js";
import { movementTogether } from "./movementTogether.js";
import { nearMultiple } from "./nearMultiple.js";
import { neededSeconds, UNFOLLOWED_FACTOR } from "./neededSeconds.js";
import { pitchSteadiness } from "./pitchSteadiness.js";
import type { StrongestChannel } from "./strongestChannel.js";

/** A line this strong belongs to a string that was not found; a weaker one is told. */
const UNEXPLAINED_DB = -13;
const OTHER_SOUND_DB = -26;
/** A string that is alone at its partials, or with others that are known, explains nearly all that is there. */
const LEAST_EXPLAINED = 0.9;
/** What the strings leave at partials of others is noise and sidebands below this, a string that moved or sounded in part above. */
const REST_DB = -20;
const SOMETHING_ELSE: Finding = { code: "other-sound", severity: "warning", values: {} };
const NOT_FOLLOWED = { interval95Cents: null, unsteadinessCents: null, swingCents: null, swingRateHz: null };

/** What a part gave. */
export interface MixturePart {
  /** The strings of it; null where it could not be read. */
  readonly mixed: MixedStrings | null;
  /** The line that no string of the instrument explains, where it is why the part could not be read. */
  readonly foreign: UnexplainedLine | null;
  /** Channels besides the strongest that strings were read in. */
  readonly alsoRead: readonly AnalysisSegment[];
  /** Where the strings leave much at partials of one that was not found, its strongest line; else null. */
  readonly restHz: number | null;
}

/**
 * Reads the strings of a part in which none joins or leaves, in whichever channel they stand.
 *
 * @param given - indices of the targets that may sound; null for all
 * @param humFrequenciesHz - lines of mains hum, which are no strings
 * @returns no strings where fewer were found than two (or one, where they were given), or where they leave a strong line
 */
export function readMixturePart(
  channel: StrongestChannel,
  part: TimeSpan,
  targets: readonly StringTarget[],
  given: readonly number[] | null,
  humFrequenciesHz: readonly number[],
): MixturePart {
  const { startSeconds, endSeconds } = part;
  const candidates = given ?? targets.map((_, index) => index);
  const {
    strings: heard,
    lines,
    alsoRead,
    rest,
  } = hearChannels(channel, part, targets, candidates, humFrequenciesHz);
  const restHz = rest !== null && rest.levelDb > REST_DB ? rest.frequencyHz : null;
  if (heard.length < (given === null ? 2 : 1)) return { mixed: null, foreign: null, alsoRead, restHz };
  const strings = lowerOfEqualFirst(heard, targets);
  // With so much left unexplained the names that were given are a guess, and so is what leans on other strings' partials.
  const isGuess = ({ line }: HeardString) => line !== null && line.levelDb > UNEXPLAINED_DB;
  const stands = (one: HeardString) =>
    !isGuess(one) || (one.fit.hasOwnPartials && one.explainedShare >= LEAST_EXPLAINED);
  const isDisturbed = strings.some(isGuess);
  if (isDisturbed && (given !== null || strings.filter(stands).length < 2)) {
    return { mixed: null, foreign: strings.find(isGuess)?.line ?? null, alsoRead, restHz };
  }
  const strongLine = lines.find((line) => line !== null && line.levelDb > OTHER_SOUND_DB);
  const others: Finding[] = strongLine
    ? [{ code: "other-sound", severity: "warning", values: { ...strongLine } }]
    : [];
  const fits = strings.map(({ fit }) => fit);
  const seconds = endSeconds - startSeconds;
  const found = strings.map(({ targetIndex }) => targetIndex);
  const partlyFinding: Finding = {
    code: "partly-sounding",
    severity: "warning",
    values: { startSeconds, endSeconds },
  };
  const hidden = hiddenStrings(given ?? [], found, fits, targets, seconds);
  const mixed: MixedStrings = {
    startSeconds,
    endSeconds,
    hidden,
    strings: strings.map((one) => {
      const { fit, targetIndex, together, partials, explainedShare, hasRival } = one;
      const needed = isOverHidden(fit, hidden, targets)
        ? UNFOLLOWED_FACTOR * seconds
        : neededSeconds(fit, together, seconds);
      const partly = needed === null && isPartly(fit, together);
      return {
        targetIndex,
        weakestThird: fit.weakestThird,
        course: fit.followed ? fit.course : null,
        isGuess: !stands(one) || partly,
        neededSeconds: needed,
        reading: {
          startSeconds,
          endSeconds,
          frequencyHz: fit.frequencyHz,
          steadiness: fit.followed
            ? pitchSteadiness({ ...fit, startSeconds, endSeconds, steady: false, noiseErrorCents: 0 })
            : NOT_FOLLOWED,
          partials,
          noisePower: null,
          frameCentroidHz: null,
          ...(fit.followed && { movement: movementTogether(fit) }),
          findings: partly
            ? [partlyFinding]
            : explainedShare < LEAST_EXPLAINED || hasRival
              ? [SOMETHING_ELSE]
              : others,
        },
      };
    }),
  };
  return { mixed, foreign: null, alsoRead, restHz };
}

/**
 * True where a string that was named and not found may lie under one that has no partials of its own, which would show
 * where it is by itself.
 */
function isOverHidden(
  fit: JointFit,
  hidden: readonly HiddenString[],
  targets: readonly StringTarget[],
): boolean {
  if (fit.hasOwnPartials) return false;
  return hidden.some(
    ({ targetIndex }) => (nearMultiple(fit.frequencyHz, targets[targetIndex].targetHz) ?? 0) > 1,
  );
}

/** Strings with one target get their names in the order of their pitch. */
function lowerOfEqualFirst(heard: readonly HeardString[], targets: readonly StringTarget[]): HeardString[] {
  const targetHz = ({ targetIndex }: HeardString) => targets[targetIndex].targetHz;
  const byNote = (a: HeardString, b: HeardString, within: number) =>
    isOneNote(targetHz(a), targetHz(b)) ? within : targetHz(a) - targetHz(b);
  const rising = [...heard].sort((a, b) => byNote(a, b, a.fit.frequencyHz - b.fit.frequencyHz));
  const named = [...heard].sort((a, b) => byNote(a, b, a.targetIndex - b.targetIndex));
  return rising.map((one, i) => ({ ...one, targetIndex: named[i].targetIndex }));
}
