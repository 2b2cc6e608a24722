import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { type TableData, textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

type PassageDocument = WheelDocument["passages"][number];
type TurnDocument = PassageDocument["strings"][number]["pitch"]["turn"];

/** Columns of the places, and of the two numbers of a string. */
const PLACE_COLUMNS = 7;
const STRING_COLUMNS = 28;
const EIGHTHS = 8;

/** One turn of the wheel at eight places: pitch and level of every string against their means. */
export function wheelTurnLines({ strings }: PassageDocument, width: number): string[] {
  const shown = strings.filter(({ pitch }) => pitch.turn.length > 0);
  if (shown.length === 0) {
    return wrapText(tooFewTurns, width, "  ");
  }
  const perTable = Math.max(1, Math.floor((width - PLACE_COLUMNS) / STRING_COLUMNS));
  const tables: string[] = [];
  for (let first = 0; first < shown.length; first += perTable) {
    const some = shown.slice(first, first + perTable);
    if (first > 0) tables.push("");
    const { columns, rows } = tableOf(some, "");
    tables.push(...textTable(columns, rows, width));
  }
  return tables;
}

/** Instead of a table where there are not enough turns. */
export const tooFewTurns = "Fewer than three whole turns: too few to lay over each other.";

/** What stands in the table, all strings in one; no rows where there are not enough turns. */
export function wheelTurnData({ strings }: PassageDocument): TableData {
  return tableOf(
    strings.filter(({ pitch }) => pitch.turn.length > 0),
    null,
  );
}

/** @param again - what stands over the second column of a string; null for its name again */
function tableOf(some: PassageDocument["strings"], again: string | null): TableData {
  return {
    columns: [
      { heading: ["", "degrees"], align: "right" },
      ...some.flatMap(({ name }) => [
        { heading: [printable(name), "cents"], align: "right" as const },
        { heading: [again ?? printable(name), "dB"], align: "right" as const },
      ]),
    ],
    rows:
      some.length === 0
        ? []
        : Array.from({ length: EIGHTHS }, (_, place) => [
            degreesAt(some[0].pitch.turn, place),
            ...some.flatMap(({ pitch, level }) => [cell(pitch.turn, place), cell(level.turn, place)]),
          ]),
  };
}

/** The places in the middle of each eighth: 22.5, 67.5, ... */
function placeAt(turn: TurnDocument, eighth: number): TurnDocument[number] {
  return turn[eighth * 3 + 1];
}

function degreesAt(turn: TurnDocument, eighth: number): string {
  return placeAt(turn, eighth).degrees.toFixed(1);
}

function cell(turn: TurnDocument, eighth: number): string {
  const { mean, interval95 } = placeAt(turn, eighth);
  const half = (interval95[1] - interval95[0]) / 2;
  return `${signed(mean, 2)} +-${(Math.ceil(half * 100 - 1e-6) / 100).toFixed(2)}`;
}
