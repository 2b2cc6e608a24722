import type { JointState, JointString } from "./JointState.js";
import type { Neighbour } from "./neighbours.js";
import { PartialFit } from "./PartialFit.js";

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
  const fit = new PartialFit(state, string, number, near.length + 1);
  fit.addGain();
  for (const one of near) fit.addNeighbour(one);
  const found = fit.solve();
  fit.clearValues();
  // Taken out of nothing, they leave themselves, upside down.
  fit.takeOut(found, (column) => column === 0 || sharing.includes(near[column - 1]));
  return fit.restPower();
}
