import type { CompareDocument } from "../../comparison/compareDocumentSchema.js";
import { printable } from "../printable.js";
import { signed } from "../signed.js";
import { bandReach } from "./bandReach.js";
import { bandSeries } from "./bandSeries.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { labelledGrid } from "./labelledGrid.js";
import { markLine } from "./markLine.js";
import { valueAxis } from "./valueAxis.js";

/** Difference of two body curves, with the band in which the whole of it lies. */
export function curveDifferenceChart(
  points: CompareDocument["bodyCurveDifference"],
  sideA: string,
  sideB: string,
): Chart {
  const [a, b] = [printable(sideA), printable(sideB)];
  const isShown = (interval: readonly [number, number] | null) =>
    interval !== null && (interval[0] > 0 || interval[1] < 0);
  const frequencies = points.map(({ frequencyHz }) => frequencyHz);
  const shown = points.filter(({ interval95Db }) => isShown(interval95Db));
  const said = shown.map(
    ({ frequencyHz, differenceDb }) => `${frequencyHz.toFixed(0)} Hz ${signed(differenceDb, 1)}`,
  );
  return {
    title: `Body curves, ${a} less ${b}`,
    description:
      `Decibels, above the line where ${a} is stronger against its own middle. The whole difference lies in the shaded band, 95 % sure. ` +
      `Filled points are shown to differ: ${said.join(", ") || "none"}.`,
    height: (width) => (width < 500 ? 270 : 330),
    option: () => ({
      grid: labelledGrid({ left: 8, right: 24, top: 34, bottom: 30 }),
      xAxis: frequencyAxis(Math.min(60, ...frequencies) / 1.1, Math.max(2800, ...frequencies) * 1.05, "x"),
      yAxis: valueAxis("dB", "y", {
        ...bandReach(points.map(({ differenceDb, interval95Db }) => [differenceDb, ...(interval95Db ?? [])])),
        axisLabel: { color: chartColours.faint.light, formatter: (value: number) => signed(value, 0) },
      }),
      series: [
        bandSeries(
          points.map(({ frequencyHz, interval95Db }) =>
            interval95Db === null ? null : ([octavesOf(frequencyHz), ...interval95Db] as const),
          ),
        ),
        {
          type: "line",
          silent: true,
          symbol: "circle",
          showAllSymbol: true,
          symbolSize: 9,
          lineStyle: { color: chartColours.first.light, width: 2 },
          data: points.map(({ frequencyHz, differenceDb, interval95Db }) => ({
            value: [octavesOf(frequencyHz), differenceDb],
            itemStyle: {
              color: isShown(interval95Db) ? chartColours.first.light : chartColours.paper.light,
              borderColor: chartColours.first.light,
              borderWidth: 2,
            },
          })),
          markLine: markLine({ yAxis: 0 }, "", "solid"),
        },
      ],
    }),
  };
}
