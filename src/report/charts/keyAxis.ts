import { chartColours } from "./chartColours.js";

/** An axis of keys from the nut on: the number of each, and its note. */
export function keyAxis(keys: readonly { readonly key: number; readonly note: string }[]) {
  const numbers = keys.map(({ key }) => key);
  const notes = new Map(keys.map(({ key, note }) => [key, note]));
  return {
    type: "value" as const,
    min: Math.min(1, ...numbers) - 0.7,
    max: Math.max(1, ...numbers) + 0.7,
    axisTick: { customValues: numbers },
    axisLabel: {
      customValues: numbers,
      formatter: (key: number) => `${key}\n${notes.get(key) ?? ""}`,
      color: chartColours.faint.light,
      fontSize: 11,
      hideOverlap: true,
    },
    splitLine: { show: false },
    axisLine: { show: true, onZero: false, lineStyle: { color: chartColours.rule.light } },
    name: "key, from the nut, and its note",
    nameTextStyle: { color: chartColours.faint.light },
    nameLocation: "middle" as const,
    nameGap: 38,
  };
}
