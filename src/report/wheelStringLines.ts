import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";
import { type NotedTable, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type PassageDocument = WheelDocument["passages"][number];
type SwingDocument = PassageDocument["strings"][number]["pitch"];

const LEAST_PRINTED = 0.005;

/** Swing of every string in pitch and level, and where in the turn it is highest. */
export function wheelStringLines(passage: PassageDocument, width: number): string[] {
  const { columns, rows, notes } = wheelStringData(passage);
  return [...textTable(columns, rows, width), ...notes.flatMap((note) => wrapText(note, width, "  - "))];
}

/** What stands in the table, and the waves besides the strongest. */
export function wheelStringData({ strings }: PassageDocument): NotedTable {
  return {
    columns: [
      { heading: ["", "string"], align: "left" },
      { heading: ["pitch", "cents"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["highest", "degrees"], align: "right" },
      { heading: ["level", "dB"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["highest", "degrees"], align: "right" },
    ],
    rows: strings.map(({ name, pitch, level }) => [printable(name), ...cells(pitch), ...cells(level)]),
    notes: strings.flatMap(({ name, pitch, level }) => [
      ...otherWaves(printable(name), "pitch", "cents", pitch),
      ...otherWaves(printable(name), "level", "dB", level),
    ]),
  };
}

function cells(swing: SwingDocument): string[] {
  const [low, high] = roundedOutward(swing.interval95, 2);
  if (swing.swing === null) return ["-", `under ${high.toFixed(2)}`, "-"];
  const [first] = swing.harmonics;
  const half = (first.highestInterval95Degrees[1] - first.highestInterval95Degrees[0]) / 2;
  const again = first.number === 1 ? "" : ` x${first.number}`;
  return [
    swing.swing.toFixed(2),
    `${low.toFixed(2)} to ${high.toFixed(2)}`,
    `${first.highestDegrees.toFixed(0)} +-${Math.max(1, Math.ceil(half)).toFixed(0)}${again}`,
  ];
}

/** Waves besides the strongest: a swing that is no plain rise and fall. */
function otherWaves(name: string, what: string, unit: string, swing: SwingDocument): string[] {
  // What would be printed as 0.00 is no news to anyone; it stays in the document.
  const large = swing.harmonics.filter(({ amount }) => amount >= LEAST_PRINTED);
  if (large.length < 2) return [];
  const waves = large.map(({ number, amount, interval95 }) => {
    const [low, high] = roundedOutward(interval95, 2);
    return `${number} a turn ${amount.toFixed(2)} ${unit} (${low.toFixed(2)} to ${high.toFixed(2)})`;
  });
  return [`${name}, ${what}: ${waves.join("; ")}.`];
}
