import type { KeyboardDocument } from "../../keyboard/keyboardDocumentSchema.js";
import { printable } from "../printable.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { keyAxis } from "./keyAxis.js";
import { labelledGrid } from "./labelledGrid.js";
import { markLine } from "./markLine.js";
import { valueAxis } from "./valueAxis.js";

/**
 * How far apart the two tangents of each key set their strings.
 *
 * @param differences - of one key at least
 * @param commonCents - what all of them have in common
 */
export function keyDifferenceChart(
  differences: KeyboardDocument["differences"],
  string: string,
  other: string,
  commonCents: number,
): Chart {
  const [a, b] = [printable(string), printable(other)];
  const said = differences.map(
    ({ key, note, differenceCents, disagrees }) =>
      `key ${key} (${note}) ${signed(differenceCents, 1)}${disagrees ? ", disagree" : ""}`,
  );
  return {
    title: `Keys of ${a} against those of ${b}`,
    description: `Cents, upwards where ${a} is the sharper, with the range that is 95 % sure. The broken line is what all keys differ by alike (${signed(commonCents, 1)} cents); filled where the tangents disagree beyond it. In cents: ${said.join("; ")}.`,
    height: (width) => (width < 500 ? 280 : 320),
    option: (width) => ({
      grid: labelledGrid({ left: 8, right: 16, top: 34, bottom: 30 }),
      xAxis: keyAxis(differences, width),
      yAxis: valueAxis("cents", "y", {
        minInterval: 1,
        axisLabel: { color: chartColours.faint.light, formatter: (cents: number) => signed(cents, 0) },
      }),
      series: [
        intervalSeries(
          "y",
          differences.map(({ key, interval95Cents }) => [key, ...interval95Cents] as const),
        ),
        {
          type: "scatter",
          silent: true,
          z: 4,
          symbol: "rect",
          symbolSize: 10,
          data: differences.map(({ key, differenceCents, disagrees }) => ({
            value: [key, differenceCents],
            itemStyle: {
              opacity: 1,
              color: disagrees ? chartColours.second.light : chartColours.paper.light,
              borderColor: chartColours.second.light,
              borderWidth: 2,
            },
          })),
          markLine: markLine({ yAxis: 0 }, "", "solid"),
        },
        {
          type: "line",
          silent: true,
          showSymbol: false,
          lineStyle: { color: chartColours.second.light, width: 1.5, type: "dashed" },
          data: [differences[0]!.key, differences.at(-1)!.key].map((key) => [key, commonCents]),
        },
      ],
    }),
  };
}
