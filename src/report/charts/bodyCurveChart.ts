import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { signed } from "../signed.js";
import { bandSeries } from "./bandSeries.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { containedGrid } from "./containedGrid.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { markLine } from "./markLine.js";
import { valueAxis } from "./valueAxis.js";

type Curve = NonNullable<MeasureDocument["takes"][number]["lowRegister"]>["bodyCurve"];

/** Where the picture begins, and where it does of sounds that all lie higher. */
const LOW_HZ = 60;
const HIGH_HZ = 250;

/** What the body makes of the strings, by third-octaves, with its range. */
export function bodyCurveChart(curve: Curve, lowReachHz: number | null): Chart {
  const known = curve.filter(({ levelDb }) => levelDb !== null);
  const lowestKnown = Math.min(...known.map(({ frequencyHz }) => frequencyHz));
  // The keys of a melody string have no low end to show.
  const lowest = Math.min(lowestKnown, lowestKnown < HIGH_HZ ? LOW_HZ : HIGH_HZ) / 1.1;
  const highest = Math.max(...known.map(({ frequencyHz }) => frequencyHz), 2800) * 1.05;
  const ends = curve.flatMap(({ levelDb, interval95Db }) => [levelDb ?? [], interval95Db ?? []].flat());
  const step = [2, 5, 10, 20].find((one) => 7 * one >= Math.max(...ends, 0) - Math.min(...ends, 0)) ?? 50;
  const floor = step * Math.floor(Math.min(...ends, -1) / step);
  const top = step * Math.ceil(Math.max(...ends, 1) / step);
  // The words of the line stand above the curve.
  const ceiling = lowReachHz !== null && top - Math.max(...ends, 1) < step ? top + step : top;
  const reach = lowReachHz === null ? "" : ` It carries down to about ${lowReachHz.toFixed(0)} Hz.`;
  const said = known.map(
    ({ frequencyHz, levelDb }) => `${frequencyHz.toFixed(0)} Hz ${signed(levelDb ?? 0, 1)}`,
  );
  return {
    title: "The body curve",
    description:
      "Decibels against the middle of the range (355 to 1413 Hz), the strings' own strength and the fall of an ideally bowed " +
      `string taken out. The shaded range is 95 % sure.${reach} Room, microphone and strings have their share in it. ${said.join(", ")}.`,
    height: (width) => (width < 500 ? 260 : 320),
    option: () => ({
      grid: containedGrid(),
      xAxis: frequencyAxis(lowest, highest, "x"),
      yAxis: valueAxis("dB", "y", { min: floor, max: ceiling, interval: step }),
      series: [
        bandSeries(
          curve.map(({ frequencyHz, interval95Db }) =>
            interval95Db === null ? null : ([octavesOf(frequencyHz), ...interval95Db] as const),
          ),
        ),
        {
          type: "line",
          silent: true,
          symbol: "circle",
          symbolSize: 8,
          lineStyle: { color: chartColours.first.light, width: 2 },
          itemStyle: {
            color: chartColours.paper.light,
            borderColor: chartColours.first.light,
            borderWidth: 2,
          },
          data: curve.map(({ frequencyHz, levelDb }) => [octavesOf(frequencyHz), levelDb ?? "-"]),
          ...(lowReachHz !== null && {
            markLine: markLine(
              { xAxis: octavesOf(lowReachHz) },
              `carries down to ${lowReachHz.toFixed(0)} Hz`,
            ),
          }),
        },
      ],
    }),
  };
}
