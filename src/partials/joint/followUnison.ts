import { smoothFrames } from "../smoothFrames.js";
import { type JointState, type JointString, moveAlong } from "./JointState.js";
import { NEIGHBOUR_HZ, neighbours } from "./neighbours.js";
import { PartialFit } from "./PartialFit.js";
import { solveSymmetric } from "./solveSymmetric.js";
import { UnisonEquations } from "./UnisonEquations.js";

const MOST_STEPS = 12;
/** Once no course moves further than this in a step (rms, cycles of the fundamental), they stand. */
const SETTLED_CYCLES = 1e-4;
/** Steps are kept to what the linear form holds for: cycles at the fundamental, and the logarithm of the gain. */
const LARGEST_STEP_CYCLES = 0.05;
const LARGEST_STEP_GAIN = 0.2;
/** Share added to the diagonal, for moments at which nothing tells two strings apart. */
const RIDGE = 1e-3;

/**
 * Follows strings of nearly one pitch together. None of them has a partial of its own, and to follow one while another
 * is taken out along a course that is not right yet converges slowly. So all courses and gains move at once:
 *
 * With amplitudes A_kn from a fit over the whole passage, what is left of partial n at one moment is, to first order, the
 * sum over strings of A_kn c_kn(t) (g_k + j 2 pi n d_k), c_kn(t) being how string k looks there, d_k its phase (cycles of
 * the fundamental) and g_k its log gain ahead of what was assumed. All partials together, each weighted with 1 / the power
 * of what is left there, give these by least squares over about 120 ms (Gauss-Newton). Partials that the swing has still torn
 * apart leave much, so they count little until the lower ones have straightened the course.
 *
 * @returns the share of the power at their partials that they leave unexplained; null where there is nothing to go by
 */
export function followUnison(
  state: JointState,
  strings: readonly JointString[],
  mostSteps = MOST_STEPS,
): number | null {
  let unexplained = 1;
  for (let step = 0; step < mostSteps; step++) {
    const done = stepTogether(state, strings);
    if (done === null) return null;
    unexplained = done.unexplained;
    if (done.movedCycles < SETTLED_CYCLES) break;
  }
  for (const string of strings) {
    string.followed = true;
    string.ownCourse = false;
  }
  return unexplained;
}

interface StepDone {
  /** How far the courses moved (rms). */
  readonly movedCycles: number;
  /** Share of the power left before the step. */
  readonly unexplained: number;
}

/** One step of all courses and gains; null where there is nothing to go by. */
function stepTogether(state: JointState, strings: readonly JointString[]): StepDone | null {
  const { grid } = state;
  const equations = new UnisonEquations(grid.count, strings.length);
  let power = 0;
  let restPower = 0;
  const [reference] = strings;
  for (let number = 1; number <= reference.partialCount; number++) {
    const near = neighbours(state, reference, number, NEIGHBOUR_HZ).filter(
      ({ string }) => !strings.includes(string),
    );
    if (near.some(({ string }) => !string.located)) continue;
    const fit = new PartialFit(state, reference, number, strings.length + near.length);
    power += fit.restPower();
    for (const string of strings) fit.addNeighbour({ string, number });
    for (const one of near) fit.addNeighbour(one);
    const found = fit.solve();
    fit.takeOut(found);
    const left = fit.restPower();
    restPower += left;
    equations.add(fit, number, found.amplitudes, left);
  }
  if (!(power > 0)) return null;
  const smoothed = smoothFrames(equations.read(), grid);
  return {
    movedCycles: applyStep(state, strings, smoothed.real, smoothed.imaginary),
    unexplained: restPower / power,
  };
}

function applyStep(
  state: JointState,
  strings: readonly JointString[],
  normal: readonly Float64Array[],
  right: readonly Float64Array[],
): number {
  const { count } = state.grid;
  const size = right.length;
  const steps = strings.map(() => ({ cycles: new Float64Array(count), gain: new Float64Array(count) }));
  const matrix = new Float64Array(size * size);
  const vector = new Float64Array(size);
  for (let m = 0; m < count; m++) {
    for (let i = 0; i < size; i++) {
      vector[i] = right[i][m];
      for (let j = 0; j <= i; j++) matrix[i * size + j] = normal[i * size + j][m] * (i === j ? 1 + RIDGE : 1);
    }
    solveSymmetric(matrix, vector);
    for (const [k, step] of steps.entries()) {
      step.cycles[m] = clamp(vector[2 * k], LARGEST_STEP_CYCLES);
      step.gain[m] = clamp(vector[2 * k + 1], LARGEST_STEP_GAIN);
    }
  }
  let squares = 0;
  for (const [k, string] of strings.entries()) {
    const { cycles, gain } = steps[k];
    squares += cycles.reduce((sum, value) => sum + value * value, 0) / count / strings.length;
    string.gain = string.gain.map((value, m) => Math.min(3, Math.max(0.3, value * Math.exp(gain[m]))));
    const course = string.courseCycles.map((value, m) => value + cycles[m]);
    moveAlong(state, string, course);
  }
  return Math.sqrt(squares);
}

function clamp(value: number, largest: number): number {
  return Number.isFinite(value) ? Math.min(largest, Math.max(-largest, value)) : 0;
}
