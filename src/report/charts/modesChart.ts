import type { TapDocument } from "../../tap/tapDocumentSchema.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { intervalSeries } from "./intervalSeries.js";
import { stemSeries } from "./stemSeries.js";
import { valueAxis } from "./valueAxis.js";

type TakeDocument = TapDocument["takes"][number];

const ROW_PIXELS = 170;
const TOP_PIXELS = 36;
const BOTTOM_PIXELS = 54;
const NAME_COLUMNS = 34;

/** The modes of each body over frequency, their level as stems, one drawing under the other. */
export function modesChart(takes: readonly TakeDocument[]): Chart {
  const rows = takes.filter(({ modes }) => modes.length > 0);
  const all = rows.flatMap(({ modes }) => modes);
  const lowest = Math.min(...all.map(({ frequencyHz }) => frequencyHz)) / 1.2;
  const highest = Math.max(...all.map(({ frequencyHz }) => frequencyHz)) * 1.2;
  const ends = all.flatMap(({ strengthDb, strengthInterval95Db }) => [
    strengthDb,
    ...(strengthInterval95Db ?? []),
  ]);
  const floor = Math.min(-20, 10 * Math.floor(Math.min(...ends) / 10));
  const ceiling = Math.max(0, 10 * Math.ceil((Math.max(...ends) - 0.5) / 10));
  const said = rows.map(
    ({ name, modes }) =>
      `${printable(name)}: ${modes.map(({ frequencyHz }) => frequencyHz.toFixed(0)).join(", ")} Hz`,
  );
  const isLast = (i: number) => i === rows.length - 1;
  return {
    title: "Modes",
    description: `Level as the tap begins, decibels against the strongest mode of each body, with the range that is 95 % sure. ${said.join("; ")}.`,
    height: () => TOP_PIXELS + ROW_PIXELS * rows.length + BOTTOM_PIXELS,
    option: () => ({
      title: rows.map(({ name }, i) => ({
        text: `${shorten(printable(name), NAME_COLUMNS)}${i === 0 ? ", dB" : ""}`,
        left: 40,
        top: TOP_PIXELS + i * ROW_PIXELS - 25,
        textStyle: { fontSize: 14, color: chartColours.ink.light },
      })),
      grid: rows.map((_, i) => ({
        outerBoundsMode: "none",
        left: 44,
        right: 24,
        top: TOP_PIXELS + i * ROW_PIXELS,
        height: ROW_PIXELS - 40,
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
          max: ceiling - floor,
          interval: 10,
          axisLabel: { color: chartColours.faint.light, formatter: (above: number) => String(above + floor) },
        }),
      ),
      series: rows.flatMap(({ modes }, i) => [
        {
          ...stemSeries(
            modes.map(({ frequencyHz, strengthDb }) => [octavesOf(frequencyHz), strengthDb - floor] as const),
            chartColours.first.light,
          ),
          xAxisIndex: i,
          yAxisIndex: i,
        },
        {
          ...intervalSeries(
            "y",
            modes.flatMap(({ frequencyHz, strengthInterval95Db: range }) =>
              range === null
                ? []
                : [[octavesOf(frequencyHz), Math.max(0, range[0] - floor), range[1] - floor] as const],
            ),
          ),
          xAxisIndex: i,
          yAxisIndex: i,
        },
      ]),
    }),
  };
}
