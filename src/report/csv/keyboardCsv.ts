import type { KeyboardDocument } from "../../keyboard/keyboardDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;
type KeyRow = ScaleDocument["keys"][number] & { readonly scale: ScaleDocument };

const columns: readonly CsvColumn<KeyRow>[] = [
  ["file", ({ scale }) => printable(scale.file)],
  ["string", ({ scale }) => printable(scale.string)],
  ["openHz", ({ scale }) => scale.openHz],
  ["key", ({ key }) => key],
  ["note", ({ note }) => note],
  ["targetHz", ({ targetHz }) => targetHz],
  ["frequencyHz", ({ frequencyHz }) => frequencyHz],
  ["deviationCents", ({ deviationCents }) => deviationCents],
  ["interval95LowCents", ({ interval95Cents }) => interval95Cents[0]],
  ["interval95HighCents", ({ interval95Cents }) => interval95Cents[1]],
  ["tangentMoveMm", ({ tangentMoveMm }) => tangentMoveMm],
  ["towards", ({ towards }) => towards],
  ["leftCents", ({ leftCents }) => leftCents],
  ["tangentMoveAfterShiftMm", ({ tangentMoveAfterShiftMm }) => tangentMoveAfterShiftMm],
  ["towardsAfterShift", ({ towardsAfterShift }) => towardsAfterShift],
  ["soundingLengthMm", ({ soundingLengthMm }) => soundingLengthMm],
  ["unsteadinessCents", ({ unsteadinessCents }) => unsteadinessCents],
  ["harmonicToNoiseDb", ({ harmonicToNoiseDb }) => harmonicToNoiseDb],
  ["harsh", ({ harsh }) => (harsh ? "yes" : "no")],
  ["unsteady", ({ unsteady }) => (unsteady ? "yes" : "no")],
];

/** The keys of a scale as a table for a spreadsheet, one row each; those of the other string under them. */
export function keyboardCsv(document: KeyboardDocument): string {
  const scales: readonly ScaleDocument[] = document.other === null ? [document] : [document, document.other];
  return columnsCsv(
    columns,
    scales.flatMap((scale) => scale.keys.map((key) => ({ ...key, scale }))),
  );
}
