import type { Finding } from "../audio/Finding.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import type { JointFit } from "../partials/joint/JointFit.js";
import { readJointly } from "../partials/joint/readJointly.js";
import { type UnexplainedLine, unexplainedLine } from "../partials/unexplainedLine.js";
import { withoutHum } from "../partials/withoutHum.js";
import { averageSpectrum } from "../signal/averageSpectrum.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { isOneNote } from "../units/isOneNote.js";
import { hiddenStrings } from "./hiddenStrings.js";
import { isPartly } from "./isPartly.js";
import type { HiddenString, MixedStrings } from "./MixedStrings.js";
import { nearMultiple } from "./nearMultiple.js";
import { neededSeconds, UNFOLLOWED_FACTOR } from "./neededSeconds.js";
import { pitchSteadiness } from "./pitchSteadiness.js";
import type { StrongestChannel } from "./strongestChannel.js";

const SPECTRUM_SECONDS = 0.5;
/** Wheel swing of 4 cents has this standard deviation. */
const TYPICAL_UNSTEADINESS_CENTS = 3;
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
  /** Where the strings leave much at partials of one that was not found, its strongest line; else null. */
  readonly restHz: number | null;
}

/**
 * Reads the strings of a part in which none joins or leaves.
 *
 * @param given - indices of the targets that may sound; null for all
 * @param humFrequenciesHz - lines of mains hum, which are no strings
 * @returns no strings where fewer were found than two (or one, where they were given), or where they leave a strong line
 */
export function readMixturePart(
  { segment, levelScale, others: otherChannels }: StrongestChannel,
  { startSeconds, endSeconds }: TimeSpan,
  targets: readonly StringTarget[],
  given: readonly number[] | null,
  humFrequenciesHz: readonly number[],
): MixturePart {
  const candidates = given ?? targets.map((_, index) => index);
  const { strings: readings, rest } = readJointly(
    segment,
    startSeconds,
    endSeconds,
    candidates.map((c) => targets[c].targetHz),
  );
  const restHz = rest !== null && rest.levelDb > REST_DB ? rest.frequencyHz : null;
  if (readings.length < (given === null ? 2 : 1)) return { mixed: null, foreign: null, restHz };
  const { found, fits } = lowerOfEqualFirst(
    readings.map(({ index }) => candidates[index]),
    readings.map(({ fit }) => fit),
    targets,
  );
  const line = otherLine(segment, startSeconds, endSeconds, fits, humFrequenciesHz);
  // With so much left unexplained the names that were given are a guess, and so is what leans on other strings' partials.
  const isGuess = line !== null && line.levelDb > UNEXPLAINED_DB;
  const stands = (fit: JointFit) => !isGuess || (fit.hasOwnPartials && fit.explainedShare >= LEAST_EXPLAINED);
  if (isGuess && (given !== null || fits.filter(stands).length < 2))
    return { mixed: null, foreign: line, restHz };
  const strongLine = [
    line,
    ...otherChannels.map((one) => otherLine(one, startSeconds, endSeconds, fits, humFrequenciesHz)),
  ].find((one) => one !== null && one.levelDb > OTHER_SOUND_DB);
  const others: Finding[] = strongLine
    ? [{ code: "other-sound", severity: "warning", values: { ...strongLine } }]
    : [];
  const seconds = endSeconds - startSeconds;
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
    strings: fits.map((fit, i) => {
      const needed = isOverHidden(fit, hidden, targets)
        ? UNFOLLOWED_FACTOR * seconds
        : neededSeconds(fit, fits, seconds);
      const partly = needed === null && isPartly(fit, fits);
      return {
        targetIndex: found[i],
        weakestThird: fit.weakestThird,
        course: fit.followed ? fit.course : null,
        isGuess: !stands(fit) || partly,
        neededSeconds: needed,
        reading: {
          startSeconds,
          endSeconds,
          frequencyHz: fit.frequencyHz,
          steadiness: fit.followed
            ? pitchSteadiness({ ...fit, startSeconds, endSeconds, steady: false, noiseErrorCents: 0 })
            : NOT_FOLLOWED,
          partials: fit.partials.map(({ number, power, signalToNoise }) => ({
            number,
            power: (power ?? 0) * levelScale,
            signalToNoise,
            shared: power === null,
          })),
          noisePower: null,
          frameCentroidHz: null,
          findings: partly
            ? [partlyFinding]
            : fit.explainedShare < LEAST_EXPLAINED
              ? [SOMETHING_ELSE]
              : others,
        },
      };
    }),
  };
  return { mixed, foreign: null, restHz };
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

/** The names of strings with one target in the order of their pitch. */
function lowerOfEqualFirst(
  found: readonly number[],
  fits: readonly JointFit[],
  targets: readonly StringTarget[],
) {
  const byNote = (aHz: number, bHz: number, within: number) => (isOneNote(aHz, bHz) ? within : aHz - bHz);
  const rising = found
    .map((index, i) => ({ fit: fits[i], targetHz: targets[index].targetHz }))
    .sort((a, b) => byNote(a.targetHz, b.targetHz, a.fit.frequencyHz - b.fit.frequencyHz));
  const names = [...found].sort((a, b) => byNote(targets[a].targetHz, targets[b].targetHz, a - b));
  return { found: names, fits: rising.map(({ fit }) => fit) };
}

/** The strongest line that no partial of the strings found explains, against the power of the whole passage. */
function otherLine(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  fits: readonly JointFit[],
  humFrequenciesHz: readonly number[],
) {
  const from = Math.max(0, Math.round((startSeconds - firstSeconds) * sampleRateHz));
  const part = samples.subarray(from, Math.round((endSeconds - firstSeconds) * sampleRateHz));
  const spectrum = averageSpectrum(part, sampleRateHz, nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz));
  const total = spectrum.density.reduce((sum, density) => sum + density * spectrum.binHz, 0);
  return unexplainedLine(
    withoutHum(spectrum, humFrequenciesHz),
    fits.map(({ frequencyHz }) => frequencyHz),
    total,
    TYPICAL_UNSTEADINESS_CENTS,
  );
}
