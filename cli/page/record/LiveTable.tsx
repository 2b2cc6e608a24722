import { type LiveReading, type LiveString, printable } from "../../../src/index.js";
import { type Column, DataTable } from "../DataTable.js";
import { rangeText, signedText } from "../numbers.js";
import { words } from "../words.js";

const { columns: heads, lacks, turn, now, caption } = words.record;
const columns: readonly Column[] = [
  { heading: heads.string, align: "left" },
  { heading: heads.off, align: "right" },
  { heading: heads.sure, align: "right" },
  { heading: heads.turn, align: "left" },
  { heading: heads.now, align: "left" },
];
/** Nearer than this the ear is not troubled, and the next reading may say the opposite: common practice, no source. */
const LEAVE_CENTS = 2;

/** Every string as it was last heard while recording, for turning a peg and looking. */
export function LiveTable({ reading }: { readonly reading: LiveReading }) {
  const rows = reading.strings.map((string) => ({
    key: string.name,
    cells: [
      printable(string.name),
      <b key="off" class="big">
        {signedText(string.deviationCents, 1)}
      </b>,
      string.lack === null ? rangeText(string.interval95Cents, 1) : lacks[string.lack],
      turnOf(string),
      string.status === "heard" ? now.ago(Math.round(string.secondsAgo ?? 0)) : now[string.status],
    ],
  }));
  return <DataTable caption={caption} columns={columns} rows={rows} isLarge />;
}

function turnOf({ deviationCents }: LiveString): string {
  if (deviationCents === null) return "";
  if (Math.abs(deviationCents) < LEAVE_CENTS) return turn.leave;
  return deviationCents < 0 ? turn.up : turn.down;
}
