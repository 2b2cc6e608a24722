import { strongest } from "./DampedMode.js";
import type { PartialFit } from "./fitPartial.js";
import { glideLead, type PitchGlide } from "./PitchGlide.js";
import type { PartialFrames } from "./partialFrames.js";
import {
  course,
  dot,
  FRAME_CORRELATION,
  interleaved,
  modeColumns,
  oldColumns,
  priors,
  restOf,
} from "./partialModel.js";
import { solveNormal } from "./solveNormal.js";

/** What a partial says of a glide, by its rise and by the logarithm of its fade, in units of the noise. */
export interface GlideEvidence {
  /** Products of what is left with what either would change. */
  readonly score: readonly [number, number];
  /** Products of these changes: rise with itself, rise with fade, fade with itself. */
  readonly information: readonly [number, number, number];
  /** Change of the angular frequency of the strongest mode with either. */
  readonly slopes: readonly [number, number];
}

/** What the frames say of a glide besides the one that their partial goes along. */
export function glideEvidence(
  frames: PartialFrames,
  fit: PartialFit,
  { rise, fadePerSecond }: PitchGlide,
): GlideEvidence | null {
  const values = interleaved(frames.re, frames.im);
  const rest = restOf(frames, values, fit.modes, fit.old, fit.old);
  const byRise = new Float64Array(values.length);
  const byFade = new Float64Array(values.length);
  for (const mode of fit.modes) {
    const { re, im } = course(frames, mode);
    for (const [m, t] of frames.times.entries()) {
      const lead = glideLead(fadePerSecond, t);
      const turn = 2 * Math.PI * frames.centreHz * lead;
      const change = 2 * Math.PI * frames.centreHz * rise * (t * Math.exp(-fadePerSecond * t) - lead);
      byRise[2 * m] -= turn * im[m];
      byRise[2 * m + 1] += turn * re[m];
      byFade[2 * m] -= change * im[m];
      byFade[2 * m + 1] += change * re[m];
    }
  }
  const columns = [...fit.modes.flatMap((mode) => modeColumns(frames, mode)), ...oldColumns(frames, fit.old)];
  const { weights } = priors(fit.modes.length, fit.old, fit.noiseVariance);
  const nothing = new Float64Array(columns.length);
  const project = (values: Float64Array) => {
    const solved = solveNormal(columns, values, weights, nothing);
    if (solved === null) return null;
    return { left: without(values, columns, solved.solution), solution: solved.solution };
  };
  const [ofRise, ofFade, ofRest] = [project(byRise), project(byFade), project(rest)];
  if (ofRise === null || ofFade === null || ofRest === null) return null;
  const variance = fit.noiseVariance * FRAME_CORRELATION;
  const product = (a: Float64Array, b: Float64Array) => dot(a, b) / variance;
  const at = 4 * fit.modes.indexOf(strongest(fit.modes)) + 3;
  return {
    score: [product(ofRise.left, ofRest.left), product(ofFade.left, ofRest.left)],
    information: [
      product(ofRise.left, ofRise.left),
      product(ofRise.left, ofFade.left),
      product(ofFade.left, ofFade.left),
    ],
    slopes: [-ofRise.solution[at], -ofFade.solution[at]],
  };
}

function without(
  values: Float64Array,
  columns: readonly Float64Array[],
  solution: Float64Array,
): Float64Array {
  return values.map((value, i) => columns.reduce((left, column, k) => left - solution[k] * column[i], value));
}
