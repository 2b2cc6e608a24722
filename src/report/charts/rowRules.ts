import { chartColours } from "./chartColours.js";

/** Lines between the rows of a chart with an axis of rows (`rowAxis`), as series of their own. */
export function rowRules(count: number) {
  return Array.from({ length: Math.max(0, count - 1) }, (_, i) => ({
    type: "line",
    silent: true,
    data: [],
    markLine: {
      silent: true,
      symbol: "none",
      label: { show: false },
      lineStyle: { color: chartColours.rule.light, type: "solid", width: 1 },
      data: [{ yAxis: i + 0.5 }],
    },
  }));
}
