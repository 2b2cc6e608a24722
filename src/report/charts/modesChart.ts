import type { TapDocument } from "../../tap/tapDocumentSchema.js";
import { printable } from "../printable.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { intervalSeries } from "./intervalSeries.js";
import { stackedDrawings } from "./stackedDrawings.js";
import { stemSeries } from "./stemSeries.js";
import { valueAxis } from "./valueAxis.js";

type TakeDocument = TapDocument["takes"][number];

const DRAWING_PIXELS = 130;

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
      `${printable(name)}: ${modes.map(({ frequencyHz, strengthDb }) => `${frequencyHz.toFixed(0)} Hz ${signed(strengthDb, 1)}`).join(", ")}`,
  );
  const stacked = stackedDrawings(
    rows.map(({ name }) => name),
    rows.map(() => "dB"),
    DRAWING_PIXELS,
  );
  return {
    title: "Modes",
    description: `Level as the tap begins (the point), decibels against the strongest mode of each body, with the range that is 95 % sure. ${said.join("; ")}.`,
    height: () => stacked.height,
    option: (width) => ({
      ...stacked.placed(width),
      xAxis: stacked.across(frequencyAxis(lowest, highest, "x")),
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
          ...stacked.inDrawing(i),
        },
        {
          ...intervalSeries(
            "y",
            modes.flatMap(({ frequencyHz, strengthInterval95Db: range }) =>
              range === null
                ? []
                : [[octavesOf(frequencyHz), Math.max(0, range[0] - floor), range[1] - floor] as const],
            ),
            chartColours.ink.light,
            5,
          ),
          ...stacked.inDrawing(i),
        },
        {
          type: "scatter",
          silent: true,
          z: 4,
          symbolSize: 8,
          itemStyle: { opacity: 1, color: chartColours.first.light },
          data: modes.map(({ frequencyHz, strengthDb }) => [octavesOf(frequencyHz), strengthDb - floor]),
          ...stacked.inDrawing(i),
        },
      ]),
    }),
  };
}
