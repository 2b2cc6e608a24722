import type { ComplexFrames } from "./ComplexFrames.js";
import { gainFit } from "./gainFit.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";
import { PartialFit } from "./PartialFit.js";

/** A partial with its neighbours taken out. */
export interface SeparatedPartial extends ComplexFrames {
  /** Mean power of the partial itself; 0 where it was not fitted. */
  readonly power: number;
  /** Mean power of what neither it nor its neighbours explain. */
  readonly restPower: number;
  /** Of the partial's amplitude, the share that could as well be a neighbour's: 0 apart, 1 not to be told apart. */
  readonly overlap: number;
}

/**
 * Splits a partial's frames between the partial and its neighbours by least squares: every one of them has one
 * amplitude, times the string's gain, along its own course, so two partials a fraction of a hertz apart still differ over a passage.
 *
 * @param fitSelf - false takes out the neighbours alone, as if the partial were not there
 * @param into - filled where there is something to take out; new frames where not given
 */
export function separatePartial(
  state: JointState,
  string: JointString,
  number: number,
  neighbours: readonly Neighbour[],
  fitSelf: boolean,
  into?: ComplexFrames,
): SeparatedPartial {
  const { taper, grid } = state;
  if (neighbours.length === 0)
    return alonePartial(string.frames.partial(number), string.gain, taper, fitSelf);
  const fit = new PartialFit(state, string, number, neighbours.length + 1);
  if (fitSelf) fit.addGain();
  for (const neighbour of neighbours) fit.addNeighbour(neighbour);
  const found = fit.solve();
  const [selfReal, selfImaginary] = fitSelf ? found.amplitudes : [0, 0];
  fit.takeOut(found, (column) => !fitSelf || column > 0);
  const separated = into ?? { real: new Float64Array(grid.count), imaginary: new Float64Array(grid.count) };
  fit.readValues(separated);
  return {
    real: separated.real,
    imaginary: separated.imaginary,
    power: selfReal ** 2 + selfImaginary ** 2,
    restPower: fit.restPower(selfReal, selfImaginary),
    overlap: fitSelf ? found.overlap : 0,
  };
}

/** The same where there is nothing to take out. */
function alonePartial(
  frames: ComplexFrames,
  gain: Float64Array,
  taper: Float64Array,
  fitSelf: boolean,
): SeparatedPartial {
  const { real, imaginary } = frames;
  const fit = gainFit(frames, gain, taper);
  return {
    real,
    imaginary,
    power: fitSelf ? fit.real ** 2 + fit.imaginary ** 2 : 0,
    restPower: fitSelf ? fit.restPower : fit.meanSquare,
    overlap: 0,
  };
}
