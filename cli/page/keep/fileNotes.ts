import { momentText } from "../../../src/index.js";
import type { TakeNotes } from "./Kept.js";

/**
 * Notes of which only the time of the recording's file is known.
 *
 * @param milliseconds - when the file was last written to
 */
export function fileNotes(milliseconds: number): TakeNotes {
  return {
    takenAt: momentText(milliseconds, new Date(milliseconds).getTimezoneOffset()),
    takenAtBasis: "file-time",
    temperatureC: null,
    humidityPercent: null,
    work: null,
  };
}
