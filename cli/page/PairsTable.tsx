import { type MeasureDocument, printable } from "../../src/index.js";
import { type Column, DataTable } from "./DataTable.js";
import { numberText, rangeText, signedText } from "./numbers.js";
import { words } from "./words.js";

const { columns: heads, pairsCaption, inTurn } = words.read;
const columns: readonly Column[] = [
  { heading: heads.pair, align: "left" },
  { heading: heads.ratio, align: "right" },
  { heading: heads.fromPure, align: "right" },
  { heading: heads.sure, align: "right" },
  { heading: heads.beats, align: "right" },
];

/** Pairs of strings near a pure interval. */
export function PairsTable({ pairs }: Pick<MeasureDocument["takes"][number], "pairs">) {
  const rows = pairs.map((pair) => ({
    key: `${pair.lower} ${pair.upper}`,
    cells: [
      `${printable(pair.lower)} - ${printable(pair.upper)}`,
      pair.ratio,
      signedText(pair.centsFromPure, 1),
      rangeText(pair.interval95Cents, 1),
      numberText(pair.beatsPerSecond, 2),
    ],
  }));
  return (
    <>
      <DataTable caption={pairsCaption} columns={columns} rows={rows} />
      {pairs.some(({ basis }) => basis === "in-turn") && <p class="faint">{inTurn}</p>}
    </>
  );
}
