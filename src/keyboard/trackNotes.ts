import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { FRAME_HOP_SECONDS, FrameTracker } from "../pitch/FrameTracker.js";
import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";

/** The pitch of the melody string from moment to moment. */
export interface NoteTrack {
  readonly firstSeconds: number;
  readonly hopSeconds: number;
  /** Cents over the open string's target; NaN where no key of it can be heard. */
  readonly centsOverOpen: Float64Array;
}

/** A string this far below its target, or a highest key this far above its own, is still looked for. */
const MARGIN_CENTS = 180;
const LEAST_CLARITY = 0.45;
/** Frames this far below the median level hold no note. */
const BELOW_MEDIAN_DB = 15;
const HALF_MEDIAN = 2;

/**
 * Follows the melody string in a channel from which the drones were taken out: every 10 ms its pitch by the frame tracker,
 * where that is one that a key of it may have; slips of a frame or two are taken out by a running median.
 *
 * @param topCents - of the highest key over the open string
 */
export function trackNotes(
  segment: AnalysisSegment,
  { startSeconds, endSeconds }: TimeSpan,
  openHz: number,
  topCents: number,
): NoteTrack {
  const { samples, sampleRateHz, firstSeconds } = segment;
  const tracker = new FrameTracker(sampleRateHz);
  const half = tracker.frameSamples / 2;
  const padded = new Float32Array(samples.length + 2 * half);
  padded.set(samples, half);
  const count = Math.max(0, Math.floor((endSeconds - startSeconds) / FRAME_HOP_SECONDS));
  const pitch = new Float64Array(count).fill(Number.NaN);
  const levelDb = new Float64Array(count).fill(-200);
  for (let m = 0; m < count; m++) {
    const at = Math.round((startSeconds + m * FRAME_HOP_SECONDS - firstSeconds) * sampleRateHz);
    if (at < 0 || at + tracker.frameSamples > padded.length) continue;
    const { frequencyHz, clarity, power } = tracker.track([padded], at);
    if (power > 0) levelDb[m] = 10 * Math.log10(power);
    if (!(frequencyHz > 0) || clarity < LEAST_CLARITY) continue;
    const over = cents(frequencyHz, openHz);
    if (over > -MARGIN_CENTS && over < topCents + MARGIN_CENTS) pitch[m] = over;
  }
  const leastDb = median(levelDb) - BELOW_MEDIAN_DB;
  for (let m = 0; m < count; m++) if (levelDb[m] < leastDb) pitch[m] = Number.NaN;
  const smoothed = pitch.map((value, m) => {
    if (Number.isNaN(value)) return value;
    const near = pitch
      .subarray(Math.max(0, m - HALF_MEDIAN), m + HALF_MEDIAN + 1)
      .filter((one) => !Number.isNaN(one));
    return median(near);
  });
  return { firstSeconds: startSeconds, hopSeconds: FRAME_HOP_SECONDS, centsOverOpen: smoothed };
}
