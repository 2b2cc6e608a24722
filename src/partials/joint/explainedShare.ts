import type { ComplexFrames } from "./ComplexFrames.js";
import { explainedBy } from "./explainedBy.js";
import type { JointState, JointString } from "./JointState.js";
import { NEIGHBOUR_HZ, neighbours } from "./neighbours.js";

/** Partials that show whether a string explains what sounds: the strongest of the lower ones. */
const HIGHEST_CHECKED = 12;
const MOST_CHECKED = 5;

/** Of what the other strings leave at its strongest partials, the share of the power that a string explains, 0 to 1. */
export function explainedShare(
  state: JointState,
  string: JointString,
  separated: (number: number) => ComplexFrames | undefined = () => undefined,
): number {
  const rows = Array.from({ length: Math.min(HIGHEST_CHECKED, string.partialCount) }, (_, n) =>
    explainedBy(state, string, n + 1, neighbours(state, string, n + 1, NEIGHBOUR_HZ), separated(n + 1)),
  );
  const strongest = rows.sort((a, b) => b.power - a.power).slice(0, MOST_CHECKED);
  const power = strongest.reduce((sum, row) => sum + row.power, 0);
  return power > 0 ? strongest.reduce((sum, row) => sum + row.share * row.power, 0) / power : 0;
}
