import { chartColours } from "./chartColours.js";

/** An axis of numbers with its unit. */
export function valueAxis(name: string, position: "x" | "y", more: Readonly<Record<string, unknown>> = {}) {
  return {
    type: "value" as const,
    name,
    nameTextStyle: {
      color: chartColours.faint.light,
      align: position === "y" ? ("left" as const) : undefined,
    },
    nameLocation: position === "x" ? ("middle" as const) : ("end" as const),
    nameGap: position === "x" ? 26 : 12,
    axisLabel: { color: chartColours.faint.light, hideOverlap: true },
    axisLine: { show: true, onZero: false, lineStyle: { color: chartColours.rule.light } },
    axisTick: { show: false },
    splitLine: { lineStyle: { color: chartColours.rule.light } },
    ...more,
  };
}
