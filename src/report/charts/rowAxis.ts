import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { chartColours } from "./chartColours.js";

/** Columns of a name. The chart library only guesses how wide letters are, and keeps room for what it guesses. */
const LONGEST = 30;
const LONGEST_ON_TWO_LINES = 32;

/** An upright axis of rows with names, the first on top. Unlike one of categories it has places between the rows. */
export function rowAxis(names: readonly string[], width: number) {
  const rows = names.map((_, i) => i);
  return {
    type: "value" as const,
    inverse: true,
    min: -0.5,
    max: names.length - 0.5,
    axisTick: { show: false },
    axisLine: { show: false },
    axisLabel: {
      customValues: rows,
      formatter: (row: number) =>
        shorten(printable(names[row] ?? ""), width < 500 ? LONGEST_ON_TWO_LINES : LONGEST),
      color: chartColours.ink.light,
      width: width < 500 ? 118 : 220,
      overflow: width < 500 ? ("break" as const) : ("truncate" as const),
    },
    splitLine: { show: false },
  };
}
