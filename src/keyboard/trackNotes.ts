import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { FRAME_HOP_SECONDS, FrameTracker } from "../pitch/FrameTracker.js";
import { median } from "../signal/median.js";
import { cents, shiftByCents } from "../units/cents.js";

/** The pitch of the melody string from moment to moment. */
export interface NoteTrack {
  readonly firstSeconds: number;
  readonly hopSeconds: number;
  /** Cents over the open string's target; NaN where no key of it can be heard. */
  readonly centsOverOpen: Float64Array;
  /** 1 where nothing sounds that could be a note. */
  readonly isSilent: Uint8Array;
}

/** A string this far below its target, or a highest key this far above its own, is still looked for. */
const MARGIN_CENTS = 180;
const LEAST_CLARITY = 0.45;
/** Frames this far below the median level hold no note. */
const BELOW_MEDIAN_DB = 15;
const HALF_MEDIAN = 2;
/**
 * Less than this share of the power between every second or third partial is no string's. Measured over drones: 0.07 at most
 * where the pitch is too low by an octave or a twelfth, 0.49 and more where it is right.
 */
const LEAST_BETWEEN = 0.06;

/**
 * Follows the melody string in a channel from which the drones were taken out: every 10 ms its pitch by the frame tracker,
 * where that is one that a key of it may have; slips of a frame or two are taken out by a running median.
 *
 * @param takenOut - the drones that were taken out of the segment, as long as it is
 * @param topCents - of the highest key over the open string
 */
export function trackNotes(
  segment: AnalysisSegment,
  takenOut: Float32Array | null,
  { startSeconds, endSeconds }: TimeSpan,
  openHz: number,
  topCents: number,
): NoteTrack {
  const { samples, sampleRateHz, firstSeconds } = segment;
  const tracker = new FrameTracker(sampleRateHz, {
    lowestHz: shiftByCents(openHz, -MARGIN_CENTS),
    highestHz: shiftByCents(openHz, topCents + MARGIN_CENTS),
  });
  const half = tracker.frameSamples / 2;
  const padded = withEnds(samples, half);
  const drones = takenOut === null ? undefined : withEnds(takenOut, half);
  const count = Math.max(0, Math.floor((endSeconds - startSeconds) / FRAME_HOP_SECONDS));
  const pitch = new Float64Array(count).fill(Number.NaN);
  const levelDb = new Float64Array(count).fill(-200);
  for (let m = 0; m < count; m++) {
    const at = Math.round((startSeconds + m * FRAME_HOP_SECONDS - firstSeconds) * sampleRateHz);
    if (at < 0 || at + tracker.frameSamples > padded.length) continue;
    const { frequencyHz, clarity, power } = tracker.track([padded], at, drones);
    if (power > 0) levelDb[m] = 10 * Math.log10(power);
    if (!(frequencyHz > 0) || clarity < LEAST_CLARITY) continue;
    const over = cents(drones === undefined ? frequencyHz : aboveDrones(tracker, frequencyHz), openHz);
    if (over > -MARGIN_CENTS && over < topCents + MARGIN_CENTS) pitch[m] = over;
  }
  const leastDb = median(levelDb) - BELOW_MEDIAN_DB;
  const isSilent = Uint8Array.from(levelDb, (value) => (value < leastDb ? 1 : 0));
  for (let m = 0; m < count; m++) if (isSilent[m] === 1) pitch[m] = Number.NaN;
  const smoothed = pitch.map((value, m) => {
    if (Number.isNaN(value)) return value;
    const near = pitch
      .subarray(Math.max(0, m - HALF_MEDIAN), m + HALF_MEDIAN + 1)
      .filter((one) => !Number.isNaN(one));
    return median(near);
  });
  return { firstSeconds: startSeconds, hopSeconds: FRAME_HOP_SECONDS, centsOverOpen: smoothed, isSilent };
}

/** The pitch of a frame, where what is left of a drone makes it seem an octave or a twelfth lower. */
function aboveDrones(tracker: FrameTracker, frequencyHz: number): number {
  const factor = [2, 3].find((one) => tracker.shareBetween(frequencyHz, one) < LEAST_BETWEEN);
  return frequencyHz * (factor ?? 1);
}

function withEnds(samples: Float32Array, half: number): Float32Array {
  const padded = new Float32Array(samples.length + 2 * half);
  padded.set(samples, half);
  return padded;
}
