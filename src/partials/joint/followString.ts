import { phaseCourse } from "../phaseCourse.js";
import { smoothCourse, smoothFrames } from "../smoothFrames.js";
import { type JointState, type JointString, moveString } from "./JointState.js";
import { neighbours } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";

/** Neighbours within this are taken out; those further off are smoothed away. */
const WIDTH_HZ = 9;
/** Frames this far apart share no smoothed noise. */
const LAG_SECONDS = 0.14;
/** Where a neighbour could be the partial itself to this degree, the split says nothing about the phase. */
const LARGEST_OVERLAP = 0.5;

/**
 * Follows a string's pitch along its own partials, or where it has too few, along shared ones with the other strings
 * taken out, and moves it onto that course.
 *
 * @returns false where no partial could be followed; the string stays where it was
 */
export function followString(state: JointState, string: JointString): boolean {
  const { grid } = state;
  const parts = Array.from({ length: string.partialCount }, (_, n) => {
    const near = neighbours(state, string, n + 1, WIDTH_HZ);
    const usable = string.ownCourse ? string.own[n] : near.every((one) => one.string.located);
    const part = separatePartial(state, string, n + 1, usable ? near : [], usable);
    return { ...part, trusted: usable && part.overlap < LARGEST_OVERLAP };
  });
  const smoothed = smoothFrames(
    { real: parts.map((part) => part.real), imaginary: parts.map((part) => part.imaginary) },
    grid,
  );
  const lag = Math.round(LAG_SECONDS / grid.hopSeconds);
  const ratios = parts.map(({ trusted }, n) =>
    trusted ? signalToNoise(smoothed.real[n], smoothed.imaginary[n], lag) : 0,
  );
  const found = phaseCourse(smoothed, ratios);
  if (found === null) return false;
  const added = smoothCourse(found.cycles, grid);
  moveString(
    state,
    string,
    string.baseHz,
    string.courseCycles.map((cycles, m) => cycles + added[m]),
  );
  return true;
}

/**
 * Signal to noise of a slowly turning phasor: what turns evenly is coherent over a lag at which smoothed noise is not,
 * wherever the phasor's mean frequency lies.
 */
function signalToNoise(real: Float64Array, imaginary: Float64Array, lag: number): number {
  let crossReal = 0;
  let crossImaginary = 0;
  let power = 0;
  for (let m = lag; m < real.length; m++) {
    crossReal += real[m] * real[m - lag] + imaginary[m] * imaginary[m - lag];
    crossImaginary += imaginary[m] * real[m - lag] - real[m] * imaginary[m - lag];
    power += (real[m] ** 2 + imaginary[m] ** 2 + real[m - lag] ** 2 + imaginary[m - lag] ** 2) / 2;
  }
  const coherence = power > 0 ? Math.hypot(crossReal, crossImaginary) / power : 0;
  return coherence / Math.max(1e-9, 1 - coherence);
}
