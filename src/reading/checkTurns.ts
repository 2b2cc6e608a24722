import { AnalysisError } from "../errors.js";

/** Turns of the wheel a second: slower or faster is no cranking, and a slip of the pen. */
export const TURNS_PER_SECOND_RANGE: readonly [number, number] = [0.3, 4];

/** @throws AnalysisError `value-out-of-range` */
export function checkTurns(turnsPerSecond: number | undefined): void {
  const [allowedMinimum, allowedMaximum] = TURNS_PER_SECOND_RANGE;
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
