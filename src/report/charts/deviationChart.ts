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
const LEAST_REACH_CENTS = 5;
/** One string a semitone off would press all others together: the picture reaches so many times as far as three strings of four need. */
const FURTHEST_TIMES = 4;
/** Lines of the picture to either side. */
const STEPS_A_SIDE = 4;

/** How far each string is off its target, with the range it lies in; what is far beyond all others is an arrow at the edge. */
export function deviationChart(rows: readonly DeviationRow[]): Chart {
  const names = rows.map(({ name }) => shorten(printable(name), NAME_COLUMNS));
  const reach = reachOf(rows.map(extentCents));
  const step = [1, 2, 5, 10, 20, 25, 50, 100, 200].find((one) => STEPS_A_SIDE * one >= reach * 1.1) ?? 400;
  const edge = STEPS_A_SIDE * step;
  const isInSight = (row: DeviationRow) => extentCents(row) <= reach;
  const said = rows.map(({ name, deviationCents, interval95Cents }) => {
    const sure = interval95Cents === null ? "" : ` (${intervalText(interval95Cents, 1)})`;
    return `${shorten(printable(name), 30)} ${signed(deviationCents, 1)}${sure}`;
  });
  const upright = {
    type: "category",
    inverse: true,
    axisLine: { show: false },
    axisTick: { show: false },
  };
  return {
    title: "How far each string is off its target",
    description:
      "Cents, sharp to the right, with the range that is 95 % sure. " +
      (rows.every(isInSight) ? "" : "An arrow: further off than the picture reaches. ") +
      `${said.join(", ")}.`,
    height: () => 52 + 30 * rows.length,
    option: (width) => ({
      grid: containedGrid(8),
      xAxis: valueAxis("cents from the target", "x", {
        min: -edge,
        max: edge,
        interval: width < 500 ? 2 * step : step,
        axisLabel: { color: chartColours.faint.light, formatter: (cents: number) => signed(cents, 0) },
      }),
      yAxis: [
        {
          ...upright,
          data: names,
          axisLabel: { color: chartColours.ink.light },
          splitLine: { show: true, lineStyle: { color: chartColours.rule.light } },
        },
        {
          ...upright,
          position: "right",
          data: rows.map(({ deviationCents }) => signed(deviationCents, 1)),
          axisLabel: { color: chartColours.ink.light },
        },
      ],
      series: [
        intervalSeries(
          "x",
          rows.flatMap((row, i) =>
            row.interval95Cents === null || !isInSight(row) ? [] : [[i, ...row.interval95Cents] as const],
          ),
        ),
        {
          type: "scatter",
          silent: true,
          z: 4,
          symbolSize: 10,
          itemStyle: { opacity: 1, color: chartColours.first.light },
          data: rows.flatMap((row, i) => (isInSight(row) ? [[row.deviationCents, i]] : [])),
          markLine: markLine({ xAxis: 0 }, "", "solid"),
        },
        {
          type: "scatter",
          silent: true,
          z: 4,
          symbol: "triangle",
          symbolSize: 13,
          itemStyle: { opacity: 1, color: chartColours.second.light },
          data: rows.flatMap((row, i) =>
            isInSight(row)
              ? []
              : [
                  {
                    value: [Math.sign(row.deviationCents) * (edge - 0.4 * step), i],
                    symbolRotate: row.deviationCents < 0 ? 90 : -90,
                  },
                ],
          ),
        },
      ],
    }),
  };
}

/** The furthest that a string may be off. */
function extentCents({ deviationCents, interval95Cents }: DeviationRow): number {
  return Math.max(...[deviationCents, ...(interval95Cents ?? [])].map(Math.abs));
}

/** How far the picture reaches: to the furthest string that is not far beyond three of four. */
function reachOf(extents: readonly number[]): number {
  const sorted = [...extents].sort((a, b) => a - b);
  const most = sorted[Math.floor(0.75 * (sorted.length - 1))] ?? 0;
  const limit = Math.max(LEAST_REACH_CENTS, FURTHEST_TIMES * most);
  return Math.max(LEAST_REACH_CENTS, ...sorted.filter((extent) => extent <= limit));
}
