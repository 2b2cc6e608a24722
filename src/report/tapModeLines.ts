import type { TapDocument } from "../tap/tapDocumentSchema.js";
import { signed } from "./signed.js";
import { type TableData, textTable } from "./textTable.js";

type TakeDocument = TapDocument["takes"][number];
type ModeDocument = TakeDocument["modes"][number];

/** One line for each mode, from the lowest up. */
export function tapModeLines(take: TakeDocument, width: number): string[] {
  if (take.modes.length === 0) return [];
  const { columns, rows } = tapModeData(take);
  return textTable(columns, rows, width - 2).map((line) => `  ${line}`);
}

/** What stands in the table. */
export function tapModeData({ modes, tapsUsed }: TakeDocument): TableData {
  const someOverlap = modes.some(({ overlapping }) => overlapping);
  return {
    columns: [
      { heading: ["", "Hz"], align: "right" },
      { heading: ["95 %", "+-"], align: "right" },
      { heading: ["", "note"], align: "left" },
      { heading: ["", "cents"], align: "right" },
      { heading: ["", "Q"], align: "right" },
      { heading: ["95 %", "between"], align: "right" },
      { heading: ["T60", "s"], align: "right" },
      { heading: ["95 %", "+-"], align: "right" },
      { heading: ["level", "dB"], align: "right" },
      { heading: ["95 %", "+-"], align: "right" },
      { heading: ["in", "taps"], align: "right" },
    ],
    rows: modes.map((mode) => [
      `${mode.frequencyHz.toFixed(1)}${someOverlap ? (mode.overlapping ? "*" : " ") : ""}`,
      halfOf(mode.frequencyInterval95Hz, hertzDigits(mode)),
      mode.note,
      signed(mode.cents, 0),
      mode.q.toFixed(1),
      `${mode.qInterval95[0].toFixed(1)}-${mode.qInterval95[1].toFixed(1)}`,
      mode.t60.value.toFixed(3),
      halfOf(mode.t60.interval95, 3),
      mode.strengthDb.toFixed(1),
      mode.strengthInterval95Db === null ? "-" : halfOf(mode.strengthInterval95Db, 1),
      `${mode.tapsFound}/${tapsUsed}`,
    ]),
  };
}

/** Half the width, rounded up, so that it is never 0 where it isn't. */
function halfOf([low, high]: readonly [number, number], digits: number): string {
  const unit = 10 ** digits;
  return (Math.ceil(((high - low) / 2) * unit - 1e-6) / unit).toFixed(digits);
}

function hertzDigits({ frequencyInterval95Hz: [low, high] }: ModeDocument): number {
  return high - low < 0.2 ? 2 : 1;
}
