import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { textTable } from "./textTable.js";
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
    return wrapText("Fewer than three whole turns: too few to lay over each other.", width, "  ");
  }
  const perTable = Math.max(1, Math.floor((width - PLACE_COLUMNS) / STRING_COLUMNS));
  const tables: string[] = [];
  for (let first = 0; first < shown.length; first += perTable) {
    const some = shown.slice(first, first + perTable);
    if (first > 0) tables.push("");
    tables.push(
      ...textTable(
        [
          { heading: ["", "degrees"], align: "right" },
          ...some.flatMap(({ name }) => [
            { heading: [printable(name), "cents"], align: "right" as const },
            { heading: ["", "dB"], align: "right" as const },
          ]),
        ],
        Array.from({ length: EIGHTHS }, (_, place) => [
          degreesAt(some[0].pitch.turn, place),
          ...some.flatMap(({ pitch, level }) => [cell(pitch.turn, place), cell(level.turn, place)]),
        ]),
        width,
      ),
    );
  }
  return tables;
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
