import { AnalysisError } from "../errors.js";

/** Slower or faster is no cranking, and a slip of the pen. */
const ALLOWED: readonly [number, number] = [0.3, 4];

/** @throws AnalysisError `value-out-of-range` */
export function checkTurns(turnsPerSecond: number | undefined): void {
  const [allowedMinimum, allowedMaximum] = ALLOWED;
  if (turnsPerSecond === undefined) return;
  if (turnsPerSecond >= allowedMinimum && turnsPerSecond <= allowedMaximum) return;
  const name = "turnsPerSecond";
  throw new AnalysisError("value-out-of-range", {
    name,
    given: turnsPerSecond,
    allowedMinimum,
    allowedMaximum,
  });
}
