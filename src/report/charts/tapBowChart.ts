import type { TapDocument } from "../../tap/tapDocumentSchema.js";
import { bandReach } from "./bandReach.js";
import { bandSeries } from "./bandSeries.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { containedGrid } from "./containedGrid.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { legend } from "./legend.js";
import { valueAxis } from "./valueAxis.js";

type Bands = NonNullable<TapDocument["bowed"]>["bands"];

const TAPPED = "tapped";
const BOWED = "bowed";

/** The tapped and the bowed curve of a body over each other. */
export function tapBowChart(bands: Bands): Chart {
  const heard = bands.filter(({ tappedDb, bowedDb }) => tappedDb !== null || bowedDb !== null);
  const frequencies = heard.map(({ frequencyHz }) => frequencyHz);
  const both = heard.filter(({ peak }) => peak === "both").map(({ frequencyHz }) => frequencyHz.toFixed(0));
  const key = (width: number) => legend([TAPPED, BOWED], width, 30);
  const line = (
    name: string,
    colour: string,
    dash: string,
    symbol: string,
    value: (band: Bands[number]) => number | null,
  ) => ({
    name,
    type: "line",
    silent: true,
    showAllSymbol: true,
    symbol,
    symbolSize: 9,
    lineStyle: { color: colour, width: 2, type: dash },
    itemStyle: { color: colour },
    data: heard.map((band) => [octavesOf(band.frequencyHz), value(band) ?? "-"]),
  });
  return {
    title: "Tapped and bowed over each other",
    description:
      "Decibels against the middle of each. Circles and the full line: tapped; triangles and the broken line: bowed, its 95 % range " +
      `shaded. Peaks in both: ${both.length === 0 ? "none" : `${both.join(", ")} Hz`}.`,
    height: (width) => (width < 500 ? 270 : 330),
    option: (width) => ({
      legend: key(width).option,
      grid: containedGrid(24, 6 + key(width).pixels),
      xAxis: frequencyAxis(Math.min(60, ...frequencies) / 1.1, Math.max(2000, ...frequencies) * 1.05, "x"),
      yAxis: valueAxis("dB", "y", {
        ...bandReach(
          heard.map(({ tappedDb, bowedDb, bowedInterval95Db }) => [
            ...[tappedDb, bowedDb].filter((level) => level !== null),
            ...(bowedInterval95Db ?? []),
          ]),
        ),
      }),
      series: [
        bandSeries(
          heard.map(({ frequencyHz, bowedInterval95Db }) =>
            bowedInterval95Db === null ? null : ([octavesOf(frequencyHz), ...bowedInterval95Db] as const),
          ),
        ),
        line(BOWED, chartColours.second.light, "dashed", "triangle", ({ bowedDb }) => bowedDb),
        line(TAPPED, chartColours.first.light, "solid", "circle", ({ tappedDb }) => tappedDb),
      ],
    }),
  };
}
