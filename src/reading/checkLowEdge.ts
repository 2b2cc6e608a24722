import { HIGHEST_EDGE_HZ, LOWEST_EDGE_HZ } from "../body/bandEdges.js";
import { AnalysisError } from "../errors.js";

/**
 * The low register must end between the lowest and the highest frequency that the measures look at.
 *
 * @throws AnalysisError `value-out-of-range`
 */
export function checkLowEdge(lowEdgeHz: number | undefined): void {
  if (lowEdgeHz === undefined || (lowEdgeHz > LOWEST_EDGE_HZ && lowEdgeHz < HIGHEST_EDGE_HZ)) return;
  throw new AnalysisError("value-out-of-range", {
    name: "lowEdgeHz",
    given: lowEdgeHz,
    allowedMinimum: Math.ceil(LOWEST_EDGE_HZ),
    allowedMaximum: Math.floor(HIGHEST_EDGE_HZ),
  });
}
