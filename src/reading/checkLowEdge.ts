import { HIGHEST_EDGE_HZ, LOWEST_EDGE_HZ } from "../body/bandEdges.js";
import { AnalysisError } from "../errors.js";

/** Where the low register may end, in whole hertz. */
export const LOW_EDGE_RANGE_HZ: readonly [number, number] = [
  Math.ceil(LOWEST_EDGE_HZ),
  Math.floor(HIGHEST_EDGE_HZ),
];

/**
 * The low register must end between the lowest and the highest frequency that the measures look at.
 *
 * @throws AnalysisError `value-out-of-range`
 */
export function checkLowEdge(lowEdgeHz: number | undefined): void {
  if (lowEdgeHz === undefined || (lowEdgeHz > LOWEST_EDGE_HZ && lowEdgeHz < HIGHEST_EDGE_HZ)) return;
  const [allowedMinimum, allowedMaximum] = LOW_EDGE_RANGE_HZ;
  const name = "lowEdgeHz";
  throw new AnalysisError("value-out-of-range", { name, given: lowEdgeHz, allowedMinimum, allowedMaximum });
}
