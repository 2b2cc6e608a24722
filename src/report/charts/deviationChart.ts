import { intervalText } from "../intervalText.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { containedGrid } from "./containedGrid.js";
import { intervalSeries } from "./intervalSeries.js";
import { markLine } from "./markLine.js";
import { valueAxis } from "./valueAxis.js";

/** A string, or a key, and how far it is off. */
export interface DeviationRow {
  readonly name: string;
  readonly deviationCents: number;
  readonly interval95Cents: readonly [number, number] | null;
}

const NAME_COLUMNS = 15;

/** How far each string is off its target, with the range it lies in. */
export function deviationChart(rows: readonly DeviationRow[]): Chart {
  const names = rows.map(({ name }) => shorten(printable(name), NAME_COLUMNS));
  const furthest = Math.max(
    5,
    ...rows.flatMap(({ deviationCents, interval95Cents }) =>
      [deviationCents, ...(interval95Cents ?? [])].map(Math.abs),
    ),
  );
  const step = [1, 2, 5, 10, 20, 25, 50, 100, 200].find((one) => 4 * one >= furthest * 1.1) ?? 400;
  const said = rows.map(({ name, deviationCents, interval95Cents }) => {
    const sure = interval95Cents === null ? "" : ` (${intervalText(interval95Cents, 1)})`;
    return `${shorten(printable(name), 30)} ${signed(deviationCents, 1)}${sure}`;
  });
  return {
    title: "How far each string is off its target",
    description: `Cents, sharp to the right, with the range that is 95 % sure. ${said.join(", ")}.`,
    height: () => 52 + 30 * rows.length,
    option: (width) => ({
      grid: containedGrid(),
      xAxis: valueAxis("cents from the target", "x", {
        min: -4 * step,
        max: 4 * step,
        interval: width < 500 ? 2 * step : step,
      }),
      yAxis: {
        type: "category",
        inverse: true,
        data: names,
        axisLabel: { color: chartColours.ink.light },
        axisLine: { show: false },
        axisTick: { show: false },
        splitLine: { show: true, lineStyle: { color: chartColours.rule.light } },
      },
      series: [
        intervalSeries(
          "x",
          rows.flatMap(({ interval95Cents }, i) =>
            interval95Cents === null ? [] : [[i, ...interval95Cents] as const],
          ),
        ),
        {
          type: "scatter",
          silent: true,
          z: 4,
          symbolSize: 10,
          itemStyle: { color: chartColours.first.light },
          data: rows.map(({ deviationCents }, i) => [deviationCents, i]),
          markLine: markLine({ xAxis: 0 }, "", "solid"),
        },
      ],
    }),
  };
}
