import type { StringReading } from "../../strings/StringReading.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { signed } from "../signed.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { markLine } from "./markLine.js";
import { stackedDrawings } from "./stackedDrawings.js";
import { valueAxis } from "./valueAxis.js";

const DRAWING_PIXELS = 82;
/** The wheel's swing shows in means over this, the jitter of single frames does not. */
const SHORTEST_SECONDS = 0.06;
const POINTS_PER_PIXEL = 2;
/** A drawing shows this much at least, so that a steady string looks steady. */
const LEAST_REACH_CENTS = 6;

type Course = readonly (readonly [seconds: number, cents: number | null])[];

/**
 * Pitch of each string over time, against its target.
 *
 * @param rows - strings that were measured
 */
export function pitchChart(rows: readonly StringReading[], durationSeconds: number): Chart {
  const said = rows.map(
    ({ name, deviationCents }) => `${shorten(printable(name), 30)} ${signed(deviationCents ?? 0, 1)}`,
  );
  const stacked = stackedDrawings(
    rows.map(({ name }) => name),
    "cents",
    DRAWING_PIXELS,
  );
  return {
    title: "Pitch of each string over time",
    description: `Cents from its target (the broken line, where it is in sight). On the mean: ${said.join(", ")}.`,
    height: () => stacked.height,
    option: (width) => {
      const courses = rows.map((string) => courseOf(string, durationSeconds, width));
      return {
        ...stacked.placed(width),
        xAxis: stacked.across(
          valueAxis("seconds", "x", { min: 0, max: durationSeconds, splitLine: { show: false } }),
        ),
        yAxis: rows.map((_, i) => {
          const { min, max, interval } = reachOf(courses[i]!);
          return valueAxis("", "y", {
            gridIndex: i,
            min,
            max,
            interval,
            axisLabel: { color: chartColours.faint.light, formatter: (cents: number) => signed(cents, 0) },
          });
        }),
        series: rows.map((_, i) => ({
          type: "line",
          silent: true,
          ...stacked.inDrawing(i),
          showSymbol: false,
          lineStyle: { color: chartColours.first.light, width: 1.5 },
          data: courses[i]!.map(([seconds, cents]) => [seconds, cents ?? "-"]),
          markLine: markLine({ yAxis: 0 }, ""),
        })),
      };
    },
  };
}

/** Means of the deviation over as long as two points a pixel allow; null between passages. */
function courseOf(
  { perPassage, deviationCents }: StringReading,
  durationSeconds: number,
  width: number,
): Course {
  const stepSeconds = Math.max(SHORTEST_SECONDS, durationSeconds / (POINTS_PER_PIXEL * width));
  return perPassage.flatMap((passage): Course => {
    const { startSeconds, endSeconds, movement } = passage;
    const end = [endSeconds, null] as const;
    if (movement === null) {
      const cents = passage.deviationCents ?? deviationCents;
      return [[startSeconds, cents], [endSeconds, cents], end];
    }
    const { hopSeconds, centSeconds } = movement;
    const stride = Math.max(1, Math.round(stepSeconds / hopSeconds));
    const points: [number, number][] = [];
    for (let m = 0; m + stride < centSeconds.length; m += stride) {
      const mean = (centSeconds[m + stride]! - centSeconds[m]!) / (stride * hopSeconds);
      points.push([startSeconds + (m + stride / 2) * hopSeconds, passage.deviationCents + mean]);
    }
    return [...points, end];
  });
}

/** What of the course is shown, between marks. */
function reachOf(course: Course): { readonly min: number; readonly max: number; readonly interval: number } {
  const known = course.flatMap(([, cents]) => cents ?? []).sort((a, b) => a - b);
  const low = known[Math.floor(0.01 * known.length)] ?? 0;
  const high = known[Math.ceil(0.99 * known.length) - 1] ?? 0;
  const middle = (low + high) / 2;
  const reach = Math.max(LEAST_REACH_CENTS, 0.65 * (high - low));
  const seesTarget = Math.abs(middle) < 3 * reach;
  const bottom = Math.min(middle - reach, seesTarget ? -1 : Number.POSITIVE_INFINITY);
  const top = Math.max(middle + reach, seesTarget ? 1 : Number.NEGATIVE_INFINITY);
  const interval = [4, 5, 10, 20, 50, 100, 200].find((one) => 4 * one >= top - bottom) ?? 400;
  return {
    min: interval * Math.floor(bottom / interval),
    max: interval * Math.ceil(top / interval),
    interval,
  };
}
