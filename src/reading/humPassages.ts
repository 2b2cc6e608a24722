import type { TimeSpan } from "../audio/findPauses.js";
import type { PitchTrack } from "../pitch/PitchTrack.js";
import type { SteadyPassage } from "../pitch/SteadyPassage.js";
import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";

/** Pitches that the tracker finds in mains hum: the mains frequency, or twice that where the rectifier's hum is stronger. */
const HUM_HZ = [50, 60, 100, 120];
/** The mains keep within 0.2 Hz of 50, and the tracker within a few cents of that. */
const NEAR_CENTS = 8;
/** Hum does not waver; a bowed string does by more than this. */
const STEADY_CENTS = 1;

/** Passages that may be nothing but mains hum between the strings: a steady pitch just where hum has it. */
export function humPassages(passages: readonly SteadyPassage[], track: PitchTrack): SteadyPassage[] {
  return passages.filter((passage) => {
    const { frequencyHz } = passage;
    if (!HUM_HZ.some((humHz) => Math.abs(cents(frequencyHz, humHz)) < NEAR_CENTS)) return false;
    const from = Math.ceil(passage.startSeconds / track.hopSeconds);
    const to = Math.floor(passage.endSeconds / track.hopSeconds);
    const away = Array.from(track.frequencyHz.subarray(from, to), (hz) => Math.abs(cents(hz, frequencyHz)));
    return median(away) < STEADY_CENTS;
  });
}

/** What is left of some stretches once others are cut out of them. */
export function withoutStretches(stretches: readonly TimeSpan[], cut: readonly TimeSpan[]): TimeSpan[] {
  return cut.reduce<TimeSpan[]>(
    (left, { startSeconds, endSeconds }) =>
      left.flatMap((one) => {
        if (endSeconds <= one.startSeconds || startSeconds >= one.endSeconds) return [one];
        return [
          { startSeconds: one.startSeconds, endSeconds: startSeconds },
          { startSeconds: endSeconds, endSeconds: one.endSeconds },
        ].filter((rest) => rest.endSeconds > rest.startSeconds);
      }),
    [...stretches],
  );
}
