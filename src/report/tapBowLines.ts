import type { TapDocument } from "../tap/tapDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { signed } from "./signed.js";
import { type NotedTable, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type BowedDocument = NonNullable<TapDocument["bowed"]>;

const NOTE =
  "dB against the middle of each (355-1413 Hz). A peak stands 1.5 dB or more over the line through its neighbours; unclear: one has a peak, and the other can't say, having no value there or beside it, or a range of more than 4 dB to either side. Tapped: the energy of the taps; the push " +
  "falls off towards the highs, the more the softer it is. Bowed: the body curve, string strengths and slopes taken out.";

const words = {
  both: "both: the body's",
  tapped: "tapped only",
  bowed: "bowed only",
  unclear: "unclear",
} as const;

/** Both curves by third-octaves, and where they have peaks. */
export function tapBowLines(bowed: BowedDocument, width: number): string[] {
  const { columns, rows, notes } = tapBowData(bowed);
  return [
    ...textTable(columns, rows, width - 2).map((line) => `  ${line}`),
    ...notes.flatMap((note) => wrapText(note, width, "  ", "  ")),
  ];
}

/** What stands in the table, and how to read it. */
export function tapBowData({ bands }: BowedDocument): NotedTable {
  const level = (value: number | null, interval: readonly [number, number] | null) =>
    value === null ? "-" : `${signed(value, 0)}${interval === null ? "" : ` (${intervalText(interval, 0)})`}`;
  const heard = bands.filter(({ tappedDb, bowedDb }) => tappedDb !== null || bowedDb !== null);
  return {
    columns: [
      { heading: ["Hz"], align: "right" },
      { heading: ["tapped", "(95 % between)"], align: "right" },
      { heading: ["bowed", "(95 % between)"], align: "right" },
      { heading: ["peak"], align: "left" },
      { heading: ["modes, Hz"], align: "left" },
    ],
    rows: heard.map((band) => [
      band.frequencyHz.toFixed(0),
      level(band.tappedDb, band.tappedInterval95Db),
      level(band.bowedDb, band.bowedInterval95Db),
      band.peak === null ? "" : words[band.peak],
      listed(band.modesHz),
    ]),
    notes: [NOTE],
  };
}

/** More than fit on a line are counted. */
function listed(modesHz: readonly number[]): string {
  const named = modesHz.slice(0, 3).map((hz) => hz.toFixed(0));
  return modesHz.length > 3 ? `${named.join(" ")} ...` : named.join(" ");
}
