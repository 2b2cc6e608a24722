import { keepValues } from "../kernels/keepValues.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { withRamp } from "../signal/withRamp.js";
import type { PartialFrames } from "./demodulate.js";
import type { FrameGrid } from "./FrameGrid.js";

/** Half length of the smoothing: slow enough to leave noise out, fast enough for a few turns of the wheel a second. */
const HALF_SECONDS = 0.06;
const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

/** Complex amplitudes after smoothing over frames, and the noise bandwidth that is left. */
export interface SmoothedFrames extends PartialFrames {
  /** Equivalent noise bandwidth of frame window and smoothing together, in hertz. */
  readonly noiseBandwidthHz: number;
}

/**
 * Smooths each partial's complex amplitude over about 120 ms with Hann weights. At the ends the weights that fall
 * outside are left out and the rest scaled up.
 */
export function smoothFrames(frames: PartialFrames, grid: FrameGrid): SmoothedFrames {
  const weights = smoothingWeights(grid);
  return {
    real: frames.real.map((values) => smooth(values, weights)),
    imaginary: frames.imaginary.map((values) => smooth(values, weights)),
    noiseBandwidthHz: noiseBandwidth(weights.weights, grid.hopSeconds),
  };
}

/** The same for one partial, into frames that are there already. */
export function smoothInto(
  into: { readonly real: Float64Array; readonly imaginary: Float64Array },
  { real, imaginary }: { readonly real: Float64Array; readonly imaginary: Float64Array },
  grid: Pick<FrameGrid, "hopSeconds">,
): void {
  const weights = smoothingWeights(grid);
  smooth(real, weights, into.real);
  smooth(imaginary, weights, into.imaginary);
}

/** The same smoothing for a phase course in cycles, its straight line kept as it is so that the ends don't bend. */
export function smoothCourse(cycles: Float64Array, grid: Pick<FrameGrid, "hopSeconds">): Float64Array {
  const slope = (cycles[cycles.length - 1] - cycles[0]) / Math.max(1, cycles.length - 1);
  return withRamp(smooth(withRamp(cycles, -slope), smoothingWeights(grid)), slope);
}

/** The weights of each half length, made once: they are asked for hundreds of times a passage. */
interface SmoothingWeights {
  readonly weights: Float64Array;
  /** Where the middle one and those after it lie in the kernels' memory, as shares of the sum of all. */
  readonly place: number;
}

const weightsOf = new Map<number, SmoothingWeights>();

function smoothingWeights(grid: Pick<FrameGrid, "hopSeconds">): SmoothingWeights {
  const half = Math.max(1, Math.round(HALF_SECONDS / grid.hopSeconds));
  const known = weightsOf.get(half);
  if (known !== undefined) return known;
  const weights = Float64Array.from(
    { length: 2 * half + 1 },
    (_, i) => 1 + Math.cos((Math.PI * (i - half)) / (half + 1)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const place = keepValues(weights.subarray(half).map((weight) => weight / total));
  const made = { weights, place };
  weightsOf.set(half, made);
  return made;
}

function smooth(
  values: Float64Array,
  { weights, place }: SmoothingWeights,
  smoothed: Float64Array = new Float64Array(values.length),
): Float64Array {
  const half = (weights.length - 1) / 2;
  const at = kernels().scratch(2 * values.byteLength, ScratchUser.smoothing);
  const { functions, f64 } = kernels();
  const first = at / VALUE_BYTES;
  f64.set(values, first);
  functions.smooth(at, place, half, values.length, at + values.byteLength);
  smoothed.set(f64.subarray(first + values.length, first + 2 * values.length));
  return smoothed;
}

/** Neighbouring frames share half their samples: their windows, cos^2 and sin^2, overlap with weight 1/8 against 3/8. */
function noiseBandwidth(weights: Float64Array, hopSeconds: number): number {
  let power = 0;
  let sum = 0;
  for (let i = 0; i < weights.length; i++) {
    power += 0.75 * weights[i] ** 2 + (i > 0 ? 0.25 * weights[i] * weights[i - 1] : 0);
    sum += weights[i];
  }
  return power / (sum * sum * hopSeconds);
}
