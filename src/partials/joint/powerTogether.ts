import type { ComplexFrames } from "./ComplexFrames.js";
import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";
import { neighbourPhasor, separateAll } from "./separatePartial.js";

/**
 * Mean power of a partial and those of other strings that all but coincide with it. How it is shared out between them
 * can't be told, but their sum can: it is what the least-squares fit makes of them together, whichever way it splits them.
 * It holds for this passage, for two lines that hardly turn against each other may help or hinder one another throughout.
 *
 * @param near - all other strings' partials that lie near, taken out along with it
 * @param sharing - those of them that count in
 */
export function powerTogether(
  state: JointState,
  string: JointString,
  number: number,
  near: readonly Neighbour[],
  sharing: readonly Neighbour[],
): number {
  const { count } = state.grid;
  const self = { real: string.gain, imaginary: new Float64Array(count) };
  const columns = [self, ...near.map((one) => neighbourPhasor(state, string, number, one))];
  const { amplitudes } = separateAll(columns, string.frames.partial(number), state.taper);
  const counts = [true, ...near.map((one) => sharing.includes(one))];
  const together: ComplexFrames = { real: new Float64Array(count), imaginary: new Float64Array(count) };
  for (const [c, { real, imaginary }] of columns.entries()) {
    if (!counts[c]) continue;
    const [a, b] = [amplitudes[2 * c], amplitudes[2 * c + 1]];
    for (let m = 0; m < count; m++) {
      together.real[m] += a * real[m] - b * imaginary[m];
      together.imaginary[m] += a * imaginary[m] + b * real[m];
    }
  }
  let sum = 0;
  for (let m = 0; m < count; m++) sum += together.real[m] ** 2 + together.imaginary[m] ** 2;
  return sum / count;
}
