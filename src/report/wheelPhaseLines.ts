import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type NotedTable, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type PassageDocument = WheelDocument["passages"][number];

const verdicts = { together: "same moment", apart: "not the same moment", unclear: "can't be told" } as const;

/** How much later each string swings than the others; nothing for one string. */
export function wheelPhaseLines(passage: PassageDocument, width: number): string[] {
  const { columns, rows, notes } = wheelPhaseData(passage);
  return [
    ...(rows.length === 0 ? [] : textTable(columns, rows, width)),
    ...notes.flatMap((note) => wrapText(note, width, "  ")),
  ];
}

/** What stands in the table, and how to read it; neither for one string. */
export function wheelPhaseData({ strings, differences, pitch, level }: PassageDocument): NotedTable {
  const columns: NotedTable["columns"] = [
    { heading: ["strings"], align: "left" },
    { heading: ["in"], align: "left" },
    { heading: ["later, degrees"], align: "right" },
    { heading: ["95 % sure between"], align: "right" },
    { heading: [""], align: "left" },
  ];
  if (strings.length < 2) return { columns, rows: [], notes: [] };
  if (differences.length === 0) {
    const none =
      "No two strings show the same wave, so their moments can't be compared. A longer take may show more.";
    return { columns, rows: [], notes: [none] };
  }
  const shares = [
    pitch.togetherShare === null ? "" : `${(100 * pitch.togetherShare).toFixed(0)} % of it in pitch`,
    level.togetherShare === null ? "" : `${(100 * level.togetherShare).toFixed(0)} % in level`,
  ].filter((text) => text !== "");
  return {
    columns,
    rows: differences.map((one) => [
      `${printable(one.first)}, ${printable(one.second)}`,
      one.quantity,
      signed(one.laterDegrees, 0),
      intervalText(one.interval95Degrees, 0),
      verdicts[one.verdict],
    ]),
    notes: [
      "later: how many degrees of the turn the second string is highest after the first (- before it). Taken as arrows " +
        `that all strings add up to: ${shares.join(", ")} (no interval: a description of this take).`,
    ],
  };
}
