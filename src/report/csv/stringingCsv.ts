import type { StringingDocument } from "../../stringing/stringingDocumentSchema.js";
import { printable } from "../printable.js";
import { type CsvColumn, columnsCsv } from "./columnsCsv.js";

type Row = StringingDocument["strings"][number];
type Beside = NonNullable<StringingDocument["comparison"]>[number];

const columns: readonly CsvColumn<Row>[] = [
  ["string", ({ name }) => printable(name)],
  ["role", ({ role }) => role],
  ["note", ({ note }) => note],
  ["frequencyHz", ({ frequencyHz }) => frequencyHz],
  ["lengthMm", ({ lengthMm }) => lengthMm],
  ["linearDensityGramsPerMetre", ({ linearDensityGramsPerMetre }) => linearDensityGramsPerMetre],
  ["densityBasis", ({ densityBasis, densityLacking }) => densityBasis ?? densityLacking],
  ["tensionNewton", ({ tensionNewton }) => tensionNewton],
  ["tensionKilogramForce", ({ tensionKilogramForce }) => tensionKilogramForce],
  ["breakingShare", ({ breakingShare }) => breakingShare],
  ["breakingHz", ({ breakingHz }) => breakingHz],
  ["wantedGramsPerMetre", ({ wantedGramsPerMetre }) => wantedGramsPerMetre],
];

const besideColumns: readonly CsvColumn<Beside>[] = [
  ["noteBeside", ({ note }) => note],
  ["frequencyHzBeside", ({ frequencyHz }) => frequencyHz],
  ["lengthMmBeside", ({ lengthMm }) => lengthMm],
  ["sameStringNewton", ({ sameStringNewton }) => sameStringNewton],
  ["sameTensionGramsPerMetre", ({ sameTensionGramsPerMetre }) => sameTensionGramsPerMetre],
  ["tensionNewtonBeside", ({ tensionNewton }) => tensionNewton],
  ["breakingShareBeside", ({ breakingShare }) => breakingShare],
];

/** The strings as a table for a spreadsheet, one row each; what stands beside them in further columns. */
export function stringingCsv({ strings, comparison }: StringingDocument): string {
  const beside = new Map((comparison ?? []).map((one) => [one.name, one]));
  const further = besideColumns.map(
    ([heading, value]): CsvColumn<Row> => [
      heading,
      ({ name }) => {
        const one = beside.get(name);
        return one === undefined ? null : value(one);
      },
    ],
  );
  return columnsCsv(comparison === null ? columns : [...columns, ...further], strings);
}
