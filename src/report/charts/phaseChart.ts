import type { WheelDocument } from "../../wheel/wheelDocumentSchema.js";
import { intervalText } from "../intervalText.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { labelledGrid } from "./labelledGrid.js";
import { markLine } from "./markLine.js";
import { rowAxis } from "./rowAxis.js";
import { rowRules } from "./rowRules.js";
import { valueAxis } from "./valueAxis.js";

/** Columns of each name beside the axis, so that both can be told. */
const LONGEST_NAME = 10;

type Difference = WheelDocument["passages"][number]["differences"][number];

/** How much later in the turn one string is highest than another: at one moment, or one after another. */
export function phaseChart(differences: readonly Difference[]): Chart {
  const rowsOf = (named: (name: string) => string) =>
    differences.map(
      ({ first, second, quantity }) =>
        `${quantity}: ${named(printable(second))} after ${named(printable(first))}`,
    );
  const rows = rowsOf((name) => name);
  const said = differences.map(
    ({ laterDegrees, interval95Degrees }, i) =>
      `${rows[i]} ${signed(laterDegrees, 0)} (${intervalText(interval95Degrees, 0)})`,
  );
  return {
    title: "The strings against each other",
    description:
      "Degrees of the turn by which the second string of a pair is highest after the first, with the range that is 95 % sure; on the line in the middle " +
      `both are at one moment. ${said.join("; ")}.`,
    height: () => 62 + 34 * rows.length,
    option: (width) => ({
      grid: labelledGrid({ left: 20, right: 24, top: 8, bottom: 26 }),
      xAxis: valueAxis("later by, degrees of the turn", "x", {
        min: -180,
        max: 180,
        interval: 90,
        axisLabel: { color: chartColours.faint.light, formatter: (value: number) => signed(value, 0) },
      }),
      yAxis: rowAxis(
        rowsOf((name) => shorten(name, LONGEST_NAME)),
        width,
      ),
      series: [
        ...rowRules(rows.length),
        {
          ...intervalSeries(
            "x",
            // A range that passes half a turn comes in again from the other side.
            differences.flatMap(({ interval95Degrees: [low, high] }, i) =>
              [-360, 0, 360].map((turn) => [i, low + turn, high + turn] as const),
            ),
          ),
          clip: true,
        },
        {
          type: "scatter",
          silent: true,
          z: 4,
          data: differences.map(({ laterDegrees, quantity }, i) => ({
            value: [laterDegrees, i],
            symbol: quantity === "pitch" ? "circle" : "rect",
            symbolSize: 10,
            itemStyle: {
              opacity: 1,
              color: quantity === "pitch" ? chartColours.first.light : chartColours.second.light,
            },
          })),
          markLine: markLine({ xAxis: 0 }, "", "solid"),
        },
      ],
    }),
  };
}
