import { momentText } from "../../../src/index.js";
import type { KeptReading, TakeNotes } from "./Kept.js";

/** What is known of a take besides its recording; the time at which it was kept where nothing was said. */
export function notesOf({ notes, keptAt }: Pick<KeptReading, "notes" | "keptAt">): TakeNotes {
  return notes ?? fileNotes(keptAt);
}

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
