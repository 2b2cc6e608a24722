import type { KeyboardDocument } from "../../keyboard/keyboardDocumentSchema.js";
import { printable } from "../printable.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { keyAxis } from "./keyAxis.js";
import { labelledGrid } from "./labelledGrid.js";
import { legend } from "./legend.js";
import { markLine } from "./markLine.js";
import { valueAxis } from "./valueAxis.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;

const AS_IT_IS = "as it is";
const SHIFT = "shift";
const LEFT = "left after it";

/** How far each key is off, the shifts of nut and bridge that explain the pattern, and what they leave. */
export function keysChart({ string, keys, pattern }: ScaleDocument): Chart {
  const hasShift = pattern.constantCents !== null || pattern.bridgeCents !== null;
  const said = keys.map(({ key, note, deviationCents, leftCents }) => {
    const left = hasShift ? `, left ${signed(leftCents, 1)}` : "";
    return `key ${key} (${note}) ${signed(deviationCents, 1)}${left}`;
  });
  // As `shiftPattern` has it: one constant, and 2^(n/12) - 1.
  const shiftOf = (key: number) =>
    (pattern.constantCents?.value ?? 0) + (pattern.bridgeCents?.value ?? 0) * (2 ** (key / 12) - 1);
  const first = keys[0]?.key ?? 1;
  const last = keys[keys.length - 1]?.key ?? first;
  const fitted = Array.from({ length: last - first + 1 }, (_, i) => [first + i, shiftOf(first + i)]);
  const key = (width: number) => legend(hasShift ? [AS_IT_IS, SHIFT, LEFT] : [], width, 18);
  return {
    title: `Keys of ${printable(string)}`,
    description:
      "Cents from each key's place over the open string, sharp upwards, with the range that is 95 % sure. " +
      (hasShift
        ? "Circles are the keys as they are; the broken line is what a shift of nut or bridge explains, as the short answer has it; triangles are what is left for the tangents after it. "
        : "") +
      `In cents: ${said.join("; ")}.`,
    height: (width) => (width < 500 ? 300 : 350),
    option: (width) => ({
      legend: key(width).option,
      grid: labelledGrid({ left: 8, right: 16, top: 34 + key(width).pixels, bottom: 30 }),
      xAxis: keyAxis(keys, width),
      yAxis: valueAxis("cents", "y", {
        minInterval: 1,
        axisLabel: { color: chartColours.faint.light, formatter: (cents: number) => signed(cents, 0) },
      }),
      series: [
        intervalSeries(
          "y",
          keys.map(({ key, interval95Cents }) => [key, ...interval95Cents] as const),
        ),
        {
          name: AS_IT_IS,
          type: "scatter",
          silent: true,
          z: 4,
          symbolSize: 9,
          itemStyle: { opacity: 1, color: chartColours.first.light },
          data: keys.map(({ key, deviationCents }) => [key, deviationCents]),
          markLine: markLine({ yAxis: 0 }, "", "solid"),
        },
        ...(hasShift
          ? [
              {
                name: SHIFT,
                type: "line",
                silent: true,
                symbol: "none",
                // The legend would put a point on its line.
                itemStyle: { opacity: 0, color: chartColours.second.light },
                lineStyle: { color: chartColours.second.light, width: 2, type: "dashed" },
                data: fitted,
              },
              {
                name: LEFT,
                type: "scatter",
                silent: true,
                z: 5,
                symbol: "triangle",
                symbolSize: 9,
                itemStyle: {
                  opacity: 1,
                  color: chartColours.paper.light,
                  borderColor: chartColours.third.light,
                  borderWidth: 2,
                },
                data: keys.map(({ key, leftCents }) => [key, leftCents]),
              },
            ]
          : []),
      ],
    }),
  };
}
