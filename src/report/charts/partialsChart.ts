import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { markLine } from "./markLine.js";
import { stemSeries } from "./stemSeries.js";
import { valueAxis } from "./valueAxis.js";

/** A string and what its partials hold. */
export interface PartialsRow {
  readonly name: string;
  readonly partials: readonly {
    readonly number: number;
    readonly frequencyHz: number;
    readonly levelDb: number | null;
    readonly shared: boolean;
  }[];
}

const FLOOR_DB = -60;
const ROW_PIXELS = 120;
const TOP_PIXELS = 36;
/** Between two drawings, for the name of the lower one. */
const GAP_PIXELS = 36;
const BOTTOM_PIXELS = 58;

/** Levels of the partials of each string, one drawing under the other, with the edge of the low register. */
export function partialsChart(rows: readonly PartialsRow[], lowEdgeHz: number): Chart {
  const all = rows.flatMap(({ partials }) => partials.map(({ frequencyHz }) => frequencyHz));
  const lowest = Math.min(...all, 60) / 1.12;
  const highest = Math.max(...all, 2000) * 1.08;
  const isLast = (i: number) => i === rows.length - 1;
  return {
    title: "Partials of each string",
    description:
      `Decibels against the whole string. The line at ${lowEdgeHz.toFixed(0)} Hz is the edge of the low register. A cross at the foot is a ` +
      "partial that two strings share: how much of it is whose can't be told.",
    height: () => TOP_PIXELS + ROW_PIXELS * rows.length - GAP_PIXELS + BOTTOM_PIXELS,
    option: (width) => ({
      title: rows.map(({ name }, i) => ({
        text: `${shorten(printable(name), width < 500 ? 26 : 60)}${i === 0 ? ", dB" : ""}`,
        left: 40,
        top: TOP_PIXELS + i * ROW_PIXELS - 25,
        textStyle: { fontSize: 14, color: chartColours.ink.light },
      })),
      grid: rows.map((_, i) => ({
        outerBoundsMode: "none",
        left: 44,
        right: 24,
        top: TOP_PIXELS + i * ROW_PIXELS,
        height: ROW_PIXELS - GAP_PIXELS,
      })),
      xAxis: rows.map((_, i) => ({
        ...frequencyAxis(lowest, highest, "x"),
        gridIndex: i,
        ...(!isLast(i) && { name: "", axisLabel: { show: false } }),
      })),
      yAxis: rows.map((_, i) =>
        valueAxis("", "y", {
          gridIndex: i,
          min: 0,
          max: -FLOOR_DB,
          interval: 20,
          axisLabel: {
            color: chartColours.faint.light,
            formatter: (above: number) => String(above + FLOOR_DB),
          },
        }),
      ),
      series: rows.flatMap(({ partials }, i) => [
        {
          ...stemSeries(
            partials.flatMap(({ frequencyHz, levelDb }) =>
              levelDb === null ? [] : [[octavesOf(frequencyHz), Math.max(0, levelDb - FLOOR_DB)] as const],
            ),
            chartColours.first.light,
            width < 500 ? 2 : 3,
          ),
          xAxisIndex: i,
          yAxisIndex: i,
        },
        {
          type: "line",
          silent: true,
          data: [],
          xAxisIndex: i,
          yAxisIndex: i,
          markLine: markLine({ xAxis: octavesOf(lowEdgeHz) }, ""),
        },
        {
          type: "scatter",
          silent: true,
          xAxisIndex: i,
          yAxisIndex: i,
          symbol: "path://M-1,-1L1,1M-1,1L1,-1",
          symbolSize: 6,
          itemStyle: { color: "transparent", borderColor: chartColours.second.light, borderWidth: 1.5 },
          data: partials.flatMap(({ frequencyHz, shared }) => (shared ? [[octavesOf(frequencyHz), 3]] : [])),
        },
      ]),
    }),
  };
}
