import { fileNotes } from "./fileNotes.js";
import type { KeptReading, TakeNotes } from "./Kept.js";

/** What is known of a take besides its recording; the time at which it was kept where nothing was said. */
export function notesOf({ notes, keptAt }: Pick<KeptReading, "notes" | "keptAt">): TakeNotes {
  return notes ?? fileNotes(keptAt);
}
