import type { CompareDocument } from "../../comparison/compareDocumentSchema.js";
import { intervalText } from "../intervalText.js";
import { printable } from "../printable.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { labelledGrid } from "./labelledGrid.js";
import { legend } from "./legend.js";
import { rowAxis } from "./rowAxis.js";
import { rowRules } from "./rowRules.js";
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
const TAKE = "a take";
const MEAN = "mean of the takes";

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
  const key = (width: number) => legend([TAKE, MEAN], width);
  return {
    title: "The low part, take by take",
    description:
      "Each circle is one take, those of a side from top to bottom in the order given. The diamond is their mean, the line the range " +
      `it lies in, 95 % sure. In decibels: ${said.join("; ")}.`,
    height: (width) => 66 + 84 * rows.length + key(width).pixels,
    option: (width) => ({
      legend: key(width).option,
      grid: labelledGrid({ left: 20, right: 24, top: 8 + key(width).pixels, bottom: 26 }),
      xAxis: valueAxis("low part, dB (more to the right)", "x", { scale: true }),
      yAxis: rowAxis(
        rows.map(({ name }) => name),
        width,
      ),
      series: [
        ...rowRules(rows.length),
        intervalSeries(
          "x",
          rows.flatMap(({ interval95 }, i) =>
            interval95 === null ? [] : [[i + MEAN_PLACE, ...interval95] as const],
          ),
        ),
        {
          name: MEAN,
          type: "scatter",
          silent: true,
          z: 4,
          symbol: "diamond",
          symbolSize: 13,
          itemStyle: { opacity: 1, color: chartColours.ink.light },
          data: rows.map(({ mean }, i) => [mean, i + MEAN_PLACE]),
        },
        {
          name: TAKE,
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
