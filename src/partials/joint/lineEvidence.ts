import { fourierTables } from "../../kernels/fourierTables.js";
import { KernelRows } from "../../kernels/KernelRows.js";
import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";
import { PartialFit } from "./PartialFit.js";

/** A candidate that the neighbours cover to more than this can't be told from them. */
const LEAST_UNCOVERED = 0.02;
/** Arrays of complex values that a transform works in. */
const [VALUES, WORK, ARRAYS] = [0, 1, 2];

/**
 * The share of a partial's frames, the known neighbours taken out, that a line leaves which is not covered by them, for lines
 * from `reach` bins below the partial to as many above; 1 where it can't be told. See `locateString`; by kernels.
 *
 * @param known - the neighbours
 * @param size - of the spectra, a power of two
 * @param row - of `left`, that the 2 * `reach` + 1 shares are put in; the row after it is used to work in
 * @returns the weighted energy of the frames, the neighbours taken out
 */
export function lineEvidence(
  state: JointState,
  string: JointString,
  number: number,
  known: readonly Neighbour[],
  size: number,
  reach: number,
  left: KernelRows,
  row: number,
): number {
  const { taperTotal: total } = state;
  const fit = new PartialFit(state, string, number, known.length);
  for (const one of known) fit.addNeighbour(one);
  if (known.length > 0) fit.takeOut(fit.solve());
  const energy = Math.max(fit.energy(), 1e-300);
  const work = new KernelRows(ScratchUser.spectra, ARRAYS, 2 * size);
  const { factors } = fourierTables(size);
  const { functions } = kernels();
  const uncovered = left.place(row + 1);
  left.fill(row, 0);
  left.fill(row + 1, total);
  const addSpectrum = (real: number, imaginary: number, factor: number, to: number) =>
    // biome-ignore format: arguments of a kernel
    functions.addSpectrum(real, imaginary, fit.weights, fit.count, work.place(VALUES), work.place(WORK), factors, size, reach, factor, to);
  for (const { real, imaginary, norm } of fit.orthogonalColumns()) {
    addSpectrum(real, imaginary, -1 / norm, uncovered);
  }
  addSpectrum(fit.real, fit.imaginary, 1, left.place(row));
  functions.leftShares(left.place(row), uncovered, 2 * reach + 1, LEAST_UNCOVERED * total, energy);
  return energy;
}
