import type { HistoryDocument } from "../../src/history/historyDocumentSchema.js";
import type { LoggedTake } from "../../src/history/logLineSchema.js";
import { readHistory } from "../../src/history/readHistory.js";
import { readLog } from "../../src/history/readLog.js";
import { historyDocument } from "../../src/report/historyDocument.js";
import { loggedTake, logOf } from "../history/loggedTakes.js";

/** A document from the text of a log, as the command makes it. */
export function historyOf(
  text: string,
  settings: Partial<HistoryDocument["settings"]> = {},
  log = "bench.log",
): HistoryDocument {
  const reading = readLog(text);
  return historyDocument({
    toolVersion: "0.0.0-test",
    log,
    settings: { strings: null, since: null, ...settings },
    reading,
    instruments: readHistory(reading.takes),
  });
}

const day = (number: number) => new Date(Date.UTC(2026, 2, number)).toISOString().slice(0, 10);
const NAMES = ["C2", "G2", "C3", "G3", "D4", "G4"];

/**
 * Nine takes of an invented instrument, four days apart: all strings fall by 0.35 cents a day and by 0.8 for each degree warmer, G3 by
 * 0.25 a day more; new cotton before the seventh brings G4 up by 5. Unevenness is made of whole numbers, the same every time.
 */
export function inventedTakes(more: Partial<LoggedTake> = {}): LoggedTake[] {
  return Array.from({ length: 9 }, (_, i) => {
    const degrees = 18 + ((i * 7) % 5);
    const cents = NAMES.map((name, s) => {
      const uneven = 0.1 * (((i * 5 + s * 3) % 7) - 3);
      const own = (name === "G3" ? -0.25 * 4 * i : 0) + (name === "G4" && i >= 6 ? 5 : 0);
      return [name, 2 - 0.35 * 4 * i - 0.8 * (degrees - 20) + own + uneven] as const;
    });
    return loggedTake({
      takenAt: day(1 + 4 * i),
      cents: Object.fromEntries(cents),
      halfCents: 0.5,
      more: {
        temperatureC: degrees,
        humidityPercent: 40 + ((i * 3) % 11),
        work: i === 6 ? "new cotton on the melody strings" : null,
        lowRegisterDb: -5 + (i >= 6 ? 0.6 : 0) + 0.1 * ((i * 5) % 3),
        ...(i === 3 && { takenAt: `${day(13)}T18:22:10`, takenAtBasis: "file-time" as const }),
        ...more,
      },
    });
  });
}

/** Such a log, with a line that is no take and one that stands twice. */
export function inventedHistory(more: Partial<LoggedTake> = {}): HistoryDocument {
  const takes = inventedTakes(more);
  return historyOf(`${logOf(takes)}tuned today\n${logOf([takes[0]!])}`);
}
