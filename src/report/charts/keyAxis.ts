import { chartColours } from "./chartColours.js";

/** Pixels that the number and the note of a key take, and those beside the axis. */
const LABEL_PIXELS = 27;
const BESIDE_PIXELS = 70;

/** An axis of keys from the nut on: the number of each, and its note; of every second or third where there is no room for all. */
export function keyAxis(keys: readonly { readonly key: number; readonly note: string }[], width: number) {
  const numbers = keys.map(({ key }) => key);
  const stride = Math.max(1, Math.ceil((keys.length * LABEL_PIXELS) / (width - BESIDE_PIXELS)));
  const labelled = numbers.filter((_, i) => i % stride === 0);
  const notes = new Map(keys.map(({ key, note }) => [key, note]));
  return {
    type: "value" as const,
    min: Math.min(1, ...numbers) - 0.7,
    max: Math.max(1, ...numbers) + 0.7,
    axisTick: { customValues: numbers },
    axisLabel: {
      customValues: labelled,
      formatter: (key: number) => `${key}\n${notes.get(key) ?? ""}`,
      color: chartColours.faint.light,
      fontSize: 11,
      lineHeight: 15,
    },
    splitLine: { show: false },
    axisLine: { show: true, onZero: false, lineStyle: { color: chartColours.rule.light } },
    name: "key, from the nut, and its note",
    nameTextStyle: { color: chartColours.faint.light },
    nameLocation: "middle" as const,
    nameGap: 40,
  };
}
