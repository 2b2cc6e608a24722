import { logLimits } from "./logLimits.js";

/** What was done, in words of one's own, as the log takes it: on one line. @returns null where nothing is said, or too much */
export function workNote(text: string): string | null {
  const note = text.replace(/\s+/g, " ").trim();
  return note === "" || note.length > logLimits.workCharacters ? null : note;
}
