import { printable } from "../printable.js";
import { chartColours } from "./chartColours.js";

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
      formatter: (row: number) => printable(names[row] ?? ""),
      color: chartColours.ink.light,
      width: width < 500 ? 118 : 190,
      overflow: width < 500 ? ("break" as const) : ("truncate" as const),
    },
    splitLine: { show: false },
  };
}
