import type { LogProblem } from "../history/readLog.js";
import { printable } from "./printable.js";

const sentences: Readonly<Record<LogProblem["reason"], string>> = {
  "half-written": "it breaks off; power may have been lost while it was written.",
  damaged: "it holds bytes that are no text; the file was damaged.",
  "not-json": "it is no reading of a take.",
  "not-a-take": "it is not as a reading of a take must be",
  "newer-version": "it was written by a newer version of Gurdybench; use that one.",
  "too-long": "it is far longer than a reading of a take.",
};

/** Why a line of the log can't be used. */
export function logProblemSentence(reason: LogProblem["reason"], field: string | null): string {
  if (reason !== "not-a-take") return sentences[reason];
  return `${sentences[reason]}${field === null ? "" : ` (${printable(field)})`}.`;
}
