import { printable } from "../../src/index.js";
import type { BenchReading } from "./BenchTake.js";
import { type Column, DataTable } from "./DataTable.js";
import { HearButtons } from "./HearButtons.js";
import { numberText, rangeText, signedText } from "./numbers.js";
import type { Listening } from "./useListening.js";
import { words } from "./words.js";

const { columns: heads, status: statusWords, stringsCaption, noString } = words.read;
const columns: readonly Column[] = [
  { heading: heads.string, align: "left" },
  { heading: heads.off, align: "right" },
  { heading: heads.sure, align: "right" },
  { heading: heads.heard, align: "right" },
  { heading: heads.wavers, align: "right" },
  { heading: heads.todo, align: "left", isWide: true },
  { heading: heads.hear, align: "left", isWide: true },
];

interface StringsTableProps extends Pick<BenchReading, "document" | "answer"> {
  readonly listening: Listening;
}

/** Every string: how far off, how surely, what to do about it; a tap lets it be heard. */
export function StringsTable({ document, answer, listening }: StringsTableProps) {
  const { strings } = document.takes[0]!;
  if (strings.length === 0) return <p>{noString}</p>;
  const rows = strings.map((string, i) => {
    const advice = answer.strings[i];
    return {
      key: string.name,
      cells: [
        printable(string.name),
        <b key="off" class="big">
          {string.status === "measured" ? signedText(string.deviationCents, 1) : statusWords[string.status]}
        </b>,
        rangeText(string.interval95Cents, 1),
        numberText(string.frequencyHz, 3),
        numberText(string.unsteadinessCents, 1),
        <span key="todo" class={`advice ${advice?.verdict}`}>
          {advice?.text}
        </span>,
        <HearButtons key="hear" string={string} listening={listening} />,
      ],
    };
  });
  return <DataTable caption={stringsCaption} columns={columns} rows={rows} />;
}
