import type { TapDocument } from "../../tap/tapDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type TakeDocument = TapDocument["takes"][number];

interface TapRow {
  readonly take: TakeDocument;
  readonly mode: TakeDocument["modes"][number];
}

const columns: readonly CsvColumn<TapRow>[] = [
  ["file", ({ take }) => printable(take.file)],
  ["body", ({ take }) => printable(take.name)],
  ["frequencyHz", ({ mode }) => mode.frequencyHz],
  ["frequencyInterval95LowHz", ({ mode }) => mode.frequencyInterval95Hz[0]],
  ["frequencyInterval95HighHz", ({ mode }) => mode.frequencyInterval95Hz[1]],
  ["note", ({ mode }) => mode.note],
  ["cents", ({ mode }) => mode.cents],
  ["q", ({ mode }) => mode.q],
  ["qInterval95Low", ({ mode }) => mode.qInterval95[0]],
  ["qInterval95High", ({ mode }) => mode.qInterval95[1]],
  ["bandwidthHz", ({ mode }) => mode.bandwidthHz],
  ["t60Seconds", ({ mode }) => mode.t60.value],
  ["strengthDb", ({ mode }) => mode.strengthDb],
  ["strengthInterval95LowDb", ({ mode }) => mode.strengthInterval95Db?.[0] ?? null],
  ["strengthInterval95HighDb", ({ mode }) => mode.strengthInterval95Db?.[1] ?? null],
  ["tapsFound", ({ mode }) => mode.tapsFound],
  ["tapsUsed", ({ take }) => take.tapsUsed],
];

/** The modes of every take as a table for a spreadsheet, one row each. */
export function tapCsv({ takes }: TapDocument): string {
  return columnsCsv(
    columns,
    takes.flatMap((take) => take.modes.map((mode) => ({ take, mode }))),
  );
}
