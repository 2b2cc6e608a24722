import { type LiveReading, type LiveString, printable } from "../../../src/index.js";
import { type Column, DataTable } from "../DataTable.js";
import { rangeText, signedText } from "../numbers.js";
import { words } from "../words.js";

const { columns: heads, lacks, turn, now, caption, notYet } = words.record;
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
  const heard = reading.strings.filter(({ status }) => status !== "not-heard");
  const missing = reading.strings.filter(({ status }) => status === "not-heard");
  const rows = heard.map((string) => ({
    key: string.name,
    cells: [
      printable(string.name),
      <b key="off" class="big">
        {signedText(string.deviationCents, 1)}
      </b>,
      string.lack === null ? rangeText(string.interval95Cents, 1) : lacks[string.lack],
      turnOf(string),
      string.status === "sounding" || string.status === "perhaps"
        ? now[string.status]
        : now.ago(Math.round(string.secondsAgo ?? 0)),
    ],
  }));
  return (
    <>
      {rows.length > 0 && <DataTable caption={caption} columns={columns} rows={rows} isLarge />}
      {missing.length > 0 && (
        <p class="faint">{notYet(missing.map(({ name }) => printable(name)).join(", "))}</p>
      )}
    </>
  );
}

function turnOf({ deviationCents }: LiveString): string {
  if (deviationCents === null) return "";
  if (Math.abs(deviationCents) < LEAVE_CENTS) return turn.leave;
  return deviationCents < 0 ? turn.up : turn.down;
}
