import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { bandReach } from "./bandReach.js";
import { bandSeries } from "./bandSeries.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { labelledGrid } from "./labelledGrid.js";
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
  const reach = lowReachHz === null ? "" : ` It carries down to about ${lowReachHz.toFixed(0)} Hz.`;
  return {
    title: "The body curve",
    description:
      "Decibels against the middle of the range (355 to 1413 Hz), the strings' own strength and the fall of an ideally bowed " +
      `string taken out. The shaded range is 95 % sure.${reach} Room, microphone and strings have their share in it.`,
    height: (width) => (width < 500 ? 260 : 320),
    option: () => ({
      grid: labelledGrid({ left: 8, right: 24, top: 34, bottom: 30 }),
      xAxis: frequencyAxis(lowest, highest, "x"),
      yAxis: valueAxis("dB", "y", {
        ...bandReach(known.map(({ levelDb, interval95Db }) => [levelDb ?? 0, ...(interval95Db ?? [])])),
      }),
      series: [
        bandSeries(
          curve.map(({ frequencyHz, interval95Db }) =>
            interval95Db === null ? null : ([octavesOf(frequencyHz), ...interval95Db] as const),
          ),
        ),
        {
          type: "line",
          silent: true,
          symbolSize: 7,
          lineStyle: { color: chartColours.first.light, width: 2 },
          itemStyle: { color: chartColours.first.light },
          data: curve.map(({ frequencyHz, levelDb }) => [octavesOf(frequencyHz), levelDb ?? "-"]),
          ...(lowReachHz !== null && {
            markLine: markLine({ xAxis: octavesOf(lowReachHz) }, "carries down to"),
          }),
        },
      ],
    }),
  };
}
