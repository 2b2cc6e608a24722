import { isMeasured, logLine } from "../../../src/index.js";
import type { Kept } from "./Kept.js";
import { notesOf } from "./notesOf.js";

/** Its name, with which the page hands it out and the command is then called. */
export const KEPT_LOG = "gurdybench-log.jsonl";

/** All that is kept as one log of takes: the logs that were brought in, then a line for each reading; oldest first. */
export function logOfKept({ logs, readings }: Pick<Kept, "logs" | "readings">): string {
  const brought = [...logs]
    .reverse()
    .map(({ text }) => (text === "" || text.endsWith("\n") ? text : `${text}\n`));
  const lines = [...readings].reverse().flatMap((reading) => {
    const { document } = reading;
    const take = document.takes[0];
    if (take === undefined || !isMeasured(take)) return [];
    return [logLine(document, take, { file: take.file, ...notesOf(reading) })];
  });
  return [...brought, ...lines].join("");
}
