import { parseMoment } from "../../../src/index.js";
import type { TakeNotes } from "./Kept.js";

/** Whether something that came from outside is what a log line says besides what was measured. */
export function isTakeNotes(value: unknown): value is TakeNotes {
  const { takenAt, takenAtBasis, temperatureC, humidityPercent, work } = Object(value) as Record<
    keyof TakeNotes,
    unknown
  >;
  return (
    typeof takenAt === "string" &&
    parseMoment(takenAt) !== null &&
    (takenAtBasis === "given" || takenAtBasis === "file-time") &&
    [temperatureC, humidityPercent].every((one) => one === null || Number.isFinite(one)) &&
    (work === null || typeof work === "string")
  );
}
