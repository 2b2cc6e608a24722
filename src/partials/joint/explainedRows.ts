import type { ComplexFrames } from "./ComplexFrames.js";
import { type Explained, explainedBy } from "./explainedBy.js";
import type { JointState, JointString } from "./JointState.js";
import { NEIGHBOUR_HZ, neighbours } from "./neighbours.js";

/** Partials that show whether a string explains what sounds: the strongest of the lower ones. */
const HIGHEST_CHECKED = 12;

/**
 * What a string explains at each of its lower partials.
 *
 * @param separated - partials with the others taken out, where that was done before
 */
export function explainedRows(
  state: JointState,
  string: JointString,
  separated: (number: number) => ComplexFrames | undefined = () => undefined,
): Explained[] {
  return Array.from({ length: Math.min(HIGHEST_CHECKED, string.partialCount) }, (_, n) =>
    explainedBy(state, string, n + 1, neighbours(state, string, n + 1, NEIGHBOUR_HZ), separated(n + 1)),
  );
}
