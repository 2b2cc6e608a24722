import type { CompareDocument } from "../../comparison/compareDocumentSchema.js";
import { intervalText } from "../intervalText.js";
import { printable } from "../printable.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { labelledGrid } from "./labelledGrid.js";
import { rowAxis } from "./rowAxis.js";
import { valueAxis } from "./valueAxis.js";

/** A side, its takes in the order given, and their mean. */
export interface TakesRow {
  readonly name: string;
  readonly takes: readonly number[];
  readonly mean: number;
  readonly interval95: readonly [number, number] | null;
}

/** Places in a row: the takes from here to there, and the mean with its interval under them. */
const FIRST_TAKE = -0.34;
const LAST_TAKE = 0.06;
const MEAN_PLACE = 0.27;

/** The low part of every take as a dot of its own, and under the dots of each side their mean with its interval. */
export function takesChart({ measures, ranking }: CompareDocument): Chart {
  const primary = measures.filter((one) => one.primary);
  const rows = ranking.map(({ name, lowRegisterDb, interval95Db }): TakesRow => {
    const measure = primary.find(({ sideA, sideB }) => sideA === name || sideB === name);
    const takes = measure === undefined ? [] : measure.sideA === name ? measure.takesA : measure.takesB;
    return { name, takes, mean: lowRegisterDb, interval95: interval95Db };
  });
  const said = rows.map(({ name, takes, mean, interval95 }) => {
    const sure = interval95 === null ? "" : ` (${intervalText(interval95, 1)})`;
    return `${printable(name)}: takes ${takes.map((one) => signed(one, 1)).join(", ")}, mean ${signed(mean, 1)}${sure}`;
  });
  return {
    title: "The low part, take by take",
    description:
      "Each circle is one take, those of a side from top to bottom in the order given. The diamond is their mean, the line the range " +
      `it lies in, 95 % sure. In decibels: ${said.join("; ")}.`,
    height: () => 66 + 84 * rows.length,
    option: (width) => ({
      grid: labelledGrid({ left: 20, right: 24, top: 8, bottom: 26 }),
      xAxis: valueAxis("low part, dB (more to the right)", "x", { scale: true }),
      yAxis: rowAxis(
        rows.map(({ name }) => name),
        width,
      ),
      series: [
        ...rows.slice(1).map((_, i) => ({
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
        })),
        intervalSeries(
          "x",
          rows.flatMap(({ interval95 }, i) =>
            interval95 === null ? [] : [[i + MEAN_PLACE, ...interval95] as const],
          ),
        ),
        {
          type: "scatter",
          silent: true,
          z: 4,
          symbol: "diamond",
          symbolSize: 13,
          itemStyle: { opacity: 1, color: chartColours.ink.light },
          data: rows.map(({ mean }, i) => [mean, i + MEAN_PLACE]),
        },
        {
          type: "scatter",
          silent: true,
          z: 5,
          symbolSize: 10,
          itemStyle: {
            opacity: 1,
            color: chartColours.paper.light,
            borderColor: chartColours.first.light,
            borderWidth: 2.5,
          },
          data: rows.flatMap(({ takes }, i) =>
            takes.map((value, take) => [
              value,
              i + FIRST_TAKE + ((LAST_TAKE - FIRST_TAKE) * (take + 0.5)) / takes.length,
            ]),
          ),
        },
      ],
    }),
  };
}
