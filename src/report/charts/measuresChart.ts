import type { CompareDocument } from "../../comparison/compareDocumentSchema.js";
import { intervalText } from "../intervalText.js";
import { measureLabel } from "../measureLabel.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { intervalSeries } from "./intervalSeries.js";
import { labelledGrid } from "./labelledGrid.js";
import { legend } from "./legend.js";
import { markLine } from "./markLine.js";
import { rowAxis } from "./rowAxis.js";
import { rowRules } from "./rowRules.js";
import { valueAxis } from "./valueAxis.js";

const DIFFERENCE = "difference of the means";
/** Columns of a string's name beside the axis. */
const LONGEST_NAME = 16;

type Measure = CompareDocument["measures"][number];

/** Measures in decibels of two sides: the difference with its interval, and each take as a mark of its own around it. */
export function measuresChart(measures: readonly Measure[], sideA: string, sideB: string): Chart {
  const rows = measures.filter(({ unit }) => unit === "dB");
  const [a, b] = [printable(sideA), printable(sideB)];
  const said = rows.map((one) => {
    const sure = one.interval95 === null ? "" : ` (${intervalText(one.interval95, 1)})`;
    return `${measureLabel(one)} ${signed(one.difference, 1)}${sure}${one.verdict === "not-shown" ? "" : ", shown"}`;
  });
  const [keyA, keyB] = [a, b].map((name) => `takes of ${shorten(name, LONGEST_NAME)}`) as [string, string];
  // Two sides whose names begin alike are told apart by what the caption says.
  const key = (width: number) => legend(keyA === keyB ? [DIFFERENCE] : [keyA, keyB, DIFFERENCE], width);
  return {
    title: `The other measures, ${a} less ${b}`,
    description:
      `Decibels, to the right where ${a} has more. The diamond is the difference of the means, the line its 95 % range by itself; filled ` +
      `where a difference is shown. Circles are the takes of ${a}, each less the mean of ${b}; triangles those of ${b} the other ` +
      `way round, the mean of ${a} less each. ${said.join("; ")}.`,
    height: (width) => 62 + 46 * rows.length + key(width).pixels,
    option: (width) => ({
      legend: key(width).option,
      grid: labelledGrid({ left: 20, right: 24, top: 8 + key(width).pixels, bottom: 26 }),
      xAxis: valueAxis("difference, dB", "x", {
        axisLabel: { color: chartColours.faint.light, formatter: (value: number) => signed(value, 0) },
        minInterval: 1,
        splitNumber: width < 500 ? 4 : 5,
      }),
      yAxis: rowAxis(rows.map(shortLabel), width),
      series: [
        ...rowRules(rows.length),
        intervalSeries(
          "x",
          rows.flatMap(({ interval95 }, i) => (interval95 === null ? [] : [[i, ...interval95] as const])),
        ),
        {
          name: DIFFERENCE,
          type: "scatter",
          silent: true,
          itemStyle: { opacity: 1, color: chartColours.ink.light },
          z: 4,
          symbol: "diamond",
          symbolSize: 13,
          data: rows.map(({ difference, verdict }, i) => ({
            value: [difference, i],
            itemStyle: {
              opacity: 1,
              color: verdict === "not-shown" ? chartColours.paper.light : chartColours.ink.light,
              borderColor: chartColours.ink.light,
              borderWidth: 2,
            },
          })),
          markLine: markLine({ xAxis: 0 }, "", "solid"),
        },
        takeMarks(keyA, "circle", chartColours.first.light, -0.3, (one) =>
          one.takesA.map((value) => value - one.b),
        ),
        takeMarks(keyB, "triangle", chartColours.second.light, 0.3, (one) =>
          one.takesB.map((value) => one.a - value),
        ),
      ],
    }),
  };

  function takeMarks(
    name: string,
    symbol: string,
    colour: string,
    place: number,
    valuesOf: (one: Measure) => readonly number[],
  ) {
    return {
      name,
      type: "scatter",
      silent: true,
      z: 5,
      symbol,
      symbolSize: 7,
      itemStyle: { opacity: 1, color: "transparent", borderColor: colour, borderWidth: 1.75 },
      data: rows.flatMap((one, i) => valuesOf(one).map((value) => [value, i + place])),
    };
  }
}

/** What is measured is not to be cut off with a long name before it. */
function shortLabel(one: Measure): string {
  return measureLabel({
    ...one,
    string: one.string === null ? null : shorten(printable(one.string), LONGEST_NAME),
  });
}
