import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { markLine } from "./markLine.js";
import { stackedDrawings } from "./stackedDrawings.js";
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

/** How many are told in words. */
const SAID_PARTIALS = 4;
const FLOOR_DB = -60;
const DRAWING_PIXELS = 84;

/** Levels of the partials of each string, one drawing under the other, with the edge of the low register. */
export function partialsChart(rows: readonly PartialsRow[], lowEdgeHz: number): Chart {
  const all = rows.flatMap(({ partials }) => partials.map(({ frequencyHz }) => frequencyHz));
  const lowest = Math.min(...all, 60) / 1.12;
  const highest = Math.max(...all, 2000) * 1.08;
  const said = rows.map(({ name, partials }) => {
    const first = partials
      .filter(({ number }) => number <= SAID_PARTIALS)
      .map(({ levelDb, shared }) =>
        levelDb === null ? (shared ? "shared" : "not heard") : signed(levelDb, 1),
      );
    return `${shorten(printable(name), 30)} ${first.join(", ")}`;
  });
  const stacked = stackedDrawings(
    rows.map(({ name }) => name),
    rows.map(() => "dB"),
    DRAWING_PIXELS,
  );
  return {
    title: "Partials of each string",
    description:
      `Decibels against the whole string. The line at ${lowEdgeHz.toFixed(0)} Hz is the edge of the low register. ` +
      (rows.some(({ partials }) => partials.some(({ shared }) => shared))
        ? "A cross at the foot is a partial that two strings share: how much of it is whose can't be told. "
        : "") +
      `The first ${SAID_PARTIALS} of each: ${said.join("; ")}.`,
    height: () => stacked.height,
    option: (width) => ({
      ...stacked.placed(width),
      xAxis: stacked.across(frequencyAxis(lowest, highest, "x")),
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
          ...stacked.inDrawing(i),
        },
        {
          type: "line",
          silent: true,
          data: [],
          ...stacked.inDrawing(i),
          markLine: markLine({ xAxis: octavesOf(lowEdgeHz) }, ""),
        },
        {
          type: "scatter",
          silent: true,
          ...stacked.inDrawing(i),
          symbol: "path://M-1,-1L1,1M-1,1L1,-1",
          symbolSize: 6,
          itemStyle: {
            color: "transparent",
            borderColor: chartColours.second.light,
            borderWidth: 1.5,
            opacity: 1,
          },
          data: partials.flatMap(({ frequencyHz, shared }) => (shared ? [[octavesOf(frequencyHz), 3]] : [])),
        },
      ]),
    }),
  };
}
