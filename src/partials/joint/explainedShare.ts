import type { Explained } from "./explainedBy.js";
import { explainedRows } from "./explainedRows.js";
import type { JointState, JointString } from "./JointState.js";

/** So many of the lower partials, the strongest, decide. */
const MOST_CHECKED = 5;

/**
 * Of what the other strings leave at its strongest partials, the share of the power that a string explains, 0 to 1.
 *
 * @param rows - what it explains at its lower partials, where that is there already
 */
export function explainedShare(
  state: JointState,
  string: JointString,
  rows: readonly Explained[] = explainedRows(state, string),
): number {
  const strongest = [...rows].sort((a, b) => b.power - a.power).slice(0, MOST_CHECKED);
  const power = strongest.reduce((sum, row) => sum + row.power, 0);
  return power > 0 ? strongest.reduce((sum, row) => sum + row.share * row.power, 0) / power : 0;
}
