import { historyDocument, parseMoment, readHistory, readLog, takesSince } from "../../../src/index.js";
import { drawPage } from "./drawPage.js";
import type { Reply, Request } from "./Messages.js";
import { toolVersion } from "./toolVersion.js";

/** What a log of takes says of each string over time. */
export async function readHistoryLog(
  { log, text, strings, since }: Extract<Request, { kind: "history" }>,
  tell: (reply: Reply) => void,
): Promise<void> {
  const reading = readLog(text);
  const moment = since === null ? null : parseMoment(since);
  const instruments = readHistory(moment === null ? reading.takes : takesSince(reading.takes, moment));
  const document = historyDocument({
    toolVersion,
    log,
    settings: { strings: strings === null ? null : [...strings], since },
    reading,
    instruments,
  });
  const names = instruments.flatMap((one) => one.strings.map(({ name }) => name));
  tell({ kind: "historied", document, strings: [...new Set(names)] });
  if (document.instruments.length > 0)
    tell({ kind: "drawn", page: await drawPage((pages) => pages.historyPage(document)) });
}
