import type { WheelDocument } from "../../wheel/wheelDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type PassageDocument = WheelDocument["passages"][number];
type StringDocument = PassageDocument["strings"][number];

interface WheelRow {
  readonly file: string;
  readonly passage: PassageDocument;
  /** Null where the passage shows no swing. */
  readonly string: StringDocument | null;
}

const swingColumns = (quantity: "pitch" | "level", unit: "Cents" | "Db"): CsvColumn<WheelRow>[] => {
  const swing = ({ string }: WheelRow) => string?.[quantity] ?? null;
  return [
    [`${quantity}Swing${unit}`, (row) => swing(row)?.swing ?? null],
    [`${quantity}Interval95Low${unit}`, (row) => swing(row)?.interval95[0] ?? null],
    [`${quantity}Interval95High${unit}`, (row) => swing(row)?.interval95[1] ?? null],
    [`${quantity}StrongestWavesATurn`, (row) => swing(row)?.harmonics[0]?.number ?? null],
    [`${quantity}HighestDegrees`, (row) => swing(row)?.harmonics[0]?.highestDegrees ?? null],
    [`${quantity}Drift${unit}`, (row) => swing(row)?.drift ?? null],
    [`${quantity}Jitter${unit}`, (row) => swing(row)?.jitter ?? null],
  ];
};

const columns: readonly CsvColumn<WheelRow>[] = [
  ["file", ({ file }) => printable(file)],
  ["startSeconds", ({ passage }) => passage.startSeconds],
  ["endSeconds", ({ passage }) => passage.endSeconds],
  ["turnsPerSecond", ({ passage }) => passage.turnsPerSecond],
  ["turnsInterval95Low", ({ passage }) => passage.turnsInterval95?.[0] ?? null],
  ["turnsInterval95High", ({ passage }) => passage.turnsInterval95?.[1] ?? null],
  ["refusal", ({ passage }) => passage.refusal],
  ["string", ({ string }) => (string === null ? null : printable(string.name))],
  ...swingColumns("pitch", "Cents"),
  ...swingColumns("level", "Db"),
];

/** The strings of every passage as a table for a spreadsheet, one row each; one row for a passage without any. */
export function wheelCsv({ file, passages }: WheelDocument): string {
  return columnsCsv(
    columns,
    passages.flatMap((passage): WheelRow[] =>
      passage.strings.length === 0
        ? [{ file, passage, string: null }]
        : passage.strings.map((string) => ({ file, passage, string })),
    ),
  );
}
