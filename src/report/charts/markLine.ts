import { chartColours } from "./chartColours.js";

/** A line across a chart, with a word at its end: that of a level line stands right of the plot, which has to keep room for it. */
export function markLine(
  at: { readonly xAxis?: number; readonly yAxis?: number },
  label: string,
  dash: "solid" | "dashed" = "dashed",
) {
  return {
    silent: true,
    symbol: "none",
    animation: false,
    lineStyle: { color: chartColours.accent.light, type: dash, width: 1.5 },
    label: {
      show: label !== "",
      formatter: label,
      color: chartColours.accent.light,
      position: "end" as const,
      align: "left" as const,
      offset: at.xAxis === undefined ? [0, 0] : [5, 22],
      rotate: 0,
    },
    data: [at],
  };
}
