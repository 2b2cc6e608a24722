import type { AudioRecording } from "../audio/AudioRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { findChanges } from "../pitch/findChanges.js";
import { isOneNote } from "../units/isOneNote.js";
import { findTwin } from "./findTwin.js";
import type { MixedStrings, MixtureReading, StringMove, TwinSound } from "./MixedStrings.js";
import { LONGEST_SECONDS, mixtureParts } from "./mixtureParts.js";
import { type MixturePart, readMixturePart } from "./readMixturePart.js";
import { stringMoves } from "./stringMoves.js";
import { strongestChannel } from "./strongestChannel.js";
import { withHiddenChanges } from "./withHiddenChanges.js";
import { withMoves } from "./withMoves.js";
import { withoutDecay } from "./withoutDecay.js";
import { withoutFalseChanges } from "./withoutFalseChanges.js";
import { withoutMoving } from "./withoutMoving.js";

/** Read beyond the stretch, so that a change close to its end is seen. */
const MARGIN_SECONDS = 1.3;
/** A string weaker than this in a third of a passage joined or left. */
const LEAST_THIRD = 0.6;
/** A part of this share of a stretch shows what the whole would. */
const MOST_SHARE = 0.95;

/**
 * Reads the strings that sound together in a stretch: parts it where strings join or leave, finds out which sound in each
 * part, and fits them jointly.
 *
 * Slow beats of two strings of one note look as if strings joined and left. So where the instrument has two such strings,
 * the stretch is read as a whole too; that stands where both are found, each sounding throughout, and no part of it shows
 * another string.
 *
 * The pitch comes from the strongest channel; levels are scaled to the power mean of the channels.
 *
 * @param piece - a stretch of sound or a part of one: see `mixturePieces`
 * @param given - indices of the targets that may sound; null for all. Those of them that don't are left out.
 * @param humFrequenciesHz - lines of mains hum, which are no strings
 * @param withTwins - whether to look for two strings of a note of which there is one, where no mixture was found: takes long
 * @returns only parts in which two strings or more sound (or any number, where they were given)
 */
export function readMixturePiece(
  recording: AudioRecording,
  survey: RecordingSurvey,
  piece: TimeSpan,
  targets: readonly StringTarget[],
  given: readonly number[] | null,
  humFrequenciesHz: readonly number[],
  withTwins: boolean,
): MixtureReading {
  const channel = strongestChannel(recording, survey, piece, MARGIN_SECONDS);
  const known = new Map<string, MixturePart>();
  const read = (part: TimeSpan) => {
    const key = `${part.startSeconds} ${part.endSeconds}`;
    const reading =
      known.get(key) ??
      readMixturePart(channel, withoutDecay(channel.segment, part), targets, given, humFrequenciesHz);
    known.set(key, reading);
    return reading;
  };
  const { segment } = channel;
  const seen = changesIn(segment);
  const joined = withHiddenChanges(piece, withoutFalseChanges(piece, seen, read), read);
  const moves = stringMoves(
    mixtureParts(piece, joined).flatMap((part) => read(part).mixed ?? []),
    targets,
  );
  const changes = moves.length === 0 ? joined : withMoves(joined, moves);
  const parts = mixtureParts(piece, changes);
  const readings = parts.flatMap((part) => {
    const reading = { part, ...read(part) };
    // A string that stands in another channel joins and leaves there.
    const apart = mixtureParts(
      part,
      reading.alsoRead.flatMap(changesIn).sort((a, b) => a - b),
    );
    return apart.length < 2 ? [reading] : apart.map((one) => ({ part: one, ...read(one) }));
  });
  const mixtures = readings.flatMap(({ mixed }) =>
    mixed === null ? [] : withoutMoving(mixed, moves, targets),
  );
  const changing = readings.flatMap(({ part, mixed, restHz }) =>
    mixed === null || restHz === null || isTold(mixed, moves) ? [] : [{ ...part, frequencyHz: restHz }],
  );
  const foreign = readings.flatMap(({ part, foreign: line }) =>
    line === null ? [] : [{ ...part, frequencyHz: line.frequencyHz }],
  );
  const [whole] = mixtureParts(piece, []);
  if (whole === undefined || whole.endSeconds - whole.startSeconds > LONGEST_SECONDS) {
    return { mixtures, twins: [], foreign, moves, changing };
  }
  if (hasEqual(targets, given) && !parts.some((part) => isMostOf(part, whole))) {
    const asWhole = read(whole).mixed;
    const throughout = asWhole?.strings.every(({ weakestThird }) => weakestThird > LEAST_THIRD) ?? false;
    if (asWhole !== null && throughout && showsBeats(asWhole, targets) && holdsAll(asWhole, mixtures)) {
      return { mixtures: [asWhole], twins: [], foreign: [], moves: [], changing: [] };
    }
  }
  const isOnePart = changes.every((at) => at <= whole.startSeconds || at >= whole.endSeconds);
  const mayBeTwins = withTwins && mixtures.length === 0 && isOnePart;
  const twins = mayBeTwins ? twinsIn(segment, whole, targets, given) : [];
  return { mixtures, twins, foreign, moves, changing };
}

function changesIn({ samples, sampleRateHz, firstSeconds }: AnalysisSegment): number[] {
  return findChanges(samples, sampleRateHz, firstSeconds);
}

function twinsIn(
  segment: AnalysisSegment,
  whole: TimeSpan,
  targets: readonly StringTarget[],
  given: readonly number[] | null,
): TwinSound[] {
  const candidates = given === null ? targets : given.map((index) => targets[index]);
  const twin = findTwin(
    segment,
    whole,
    candidates.map(({ targetHz }) => targetHz),
  );
  return twin === null ? [] : [{ ...whole, lowerHz: twin[0], upperHz: twin[1] }];
}

/** True where what is wrong in a part is told of one of its strings already. */
function isTold({ startSeconds, endSeconds, strings }: MixedStrings, moves: readonly StringMove[]): boolean {
  return (
    strings.some(({ reading }) => reading.findings.some(({ code }) => code === "partly-sounding")) ||
    moves.some((move) => move.startSeconds < endSeconds && move.endSeconds > startSeconds)
  );
}

/** True where a change near an end only, where the sound fades, makes a part differ from the whole. */
function isMostOf(part: TimeSpan, whole: TimeSpan): boolean {
  return part.endSeconds - part.startSeconds > MOST_SHARE * (whole.endSeconds - whole.startSeconds);
}

/** True where two strings that may sound have one target. */
function hasEqual(targets: readonly StringTarget[], given: readonly number[] | null): boolean {
  const indices = given ?? targets.map((_, index) => index);
  return indices.some((a) => indices.some((b) => a !== b && areEqual(targets, a, b)));
}

/** True where two strings with one target were both found. */
function showsBeats({ strings }: MixedStrings, targets: readonly StringTarget[]): boolean {
  return strings.some((a) => strings.some((b) => a !== b && areEqual(targets, a.targetIndex, b.targetIndex)));
}

/** True where no part shows a string that the whole does not. */
function holdsAll(whole: MixedStrings, parts: readonly MixedStrings[]): boolean {
  return parts.every(({ strings }) =>
    strings.every((one) => whole.strings.some(({ targetIndex }) => targetIndex === one.targetIndex)),
  );
}

function areEqual(targets: readonly StringTarget[], a: number, b: number): boolean {
  return isOneNote(targets[a].targetHz, targets[b].targetHz);
}
