import type { DecayWindows } from "./DecayWindows.js";
import { type PoleFit, slopesByWindow } from "./fitPoles.js";
import type { Pole } from "./Pole.js";

/** A tap must know Q to within this by itself, as a logarithm, to be counted. */
const SURE_LN_Q = 0.35;

/**
 * Each pole as each tap by itself has it: one Newton step from the common pole with what this tap alone says, the other
 * poles held.
 *
 * @param noise - of each pole, times that of white noise of variance 1
 * @returns by tap and pole; null where the tap alone does not know the pole
 */
export function polesByTap(fit: PoleFit, data: DecayWindows, noise: readonly number[]): (Pole | null)[][] {
  const size = 2 * fit.poles.length;
  const { rateHz } = data;
  return slopesByWindow(fit, data).map(({ slope, information }) =>
    fit.poles.map(({ frequencyHz, decay }, k) => {
      const at = (row: number, column: number) => information[(2 * k + row) * size + 2 * k + column]!;
      const determinant = at(0, 0) * at(1, 1) - at(0, 1) ** 2;
      if (!(determinant > 0)) return null;
      const varianceOfDecay = (noise[k]! * at(1, 1) * rateHz * rateHz) / determinant;
      if (!(Math.sqrt(varianceOfDecay) < SURE_LN_Q * decay)) return null;
      const real = (at(1, 1) * slope[2 * k]! - at(0, 1) * slope[2 * k + 1]!) / determinant;
      const imaginary = (at(0, 0) * slope[2 * k + 1]! - at(0, 1) * slope[2 * k]!) / determinant;
      const ownDecay = decay - real * rateHz;
      if (!(ownDecay > 0)) return null;
      return { frequencyHz: frequencyHz + (imaginary * rateHz) / (2 * Math.PI), decay: ownDecay };
    }),
  );
}
