import type { HarmonicFit } from "../partials/HarmonicFit.js";
import { smoothCourse } from "../partials/smoothFrames.js";
import { levelsOfGain } from "./levelsOfGain.js";
import type { StringMovement } from "./StringMovement.js";

/**
 * The movement of a string that sounds alone.
 *
 * Its course was smoothed twice in a row, the second time what the first had left: a wave that one smoothing passes at S
 * comes out at 1 - (1 - S)^2. Once more brings that to 1 - (1 - S)^4, which is within 0.3 % up to 5 Hz.
 */
export function movementAlone({ course, gain }: Pick<HarmonicFit, "course" | "gain">): StringMovement {
  const { hopSeconds, centSeconds } = course;
  const once = smoothCourse(centSeconds, course);
  const twice = smoothCourse(once, course);
  return {
    hopSeconds,
    centSeconds: centSeconds.map((value, m) => 2 * value - 2 * once[m] + twice[m]),
    levelDb: levelsOfGain(gain),
  };
}
