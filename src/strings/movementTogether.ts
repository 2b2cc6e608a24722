import type { JointFit } from "../partials/joint/JointFit.js";
import { smoothCourse } from "../partials/smoothFrames.js";
import { levelsOfGain } from "./levelsOfGain.js";
import type { StringMovement } from "./StringMovement.js";

/**
 * The movement of one of several strings that sound together.
 *
 * Its course was followed until nothing moved any more, so nothing of it is lost. Its gain was smoothed once; adding what
 * smoothing takes away, twice, brings a wave that is passed at S to 1 - (1 - S)^3: within 0.1 % up to 3 Hz.
 */
export function movementTogether({ course, gain }: Pick<JointFit, "course" | "gain">): StringMovement {
  const once = smoothCourse(gain, course);
  const twice = smoothCourse(once, course);
  const sharp = gain.map((value, m) => 3 * value - 3 * once[m] + twice[m]);
  return { ...course, levelDb: levelsOfGain(sharp) };
}
