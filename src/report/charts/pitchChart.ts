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
/** Of what is across, left between passages, all gaps together. */
const GAP_SHARE = 0.03;
/** A drawing shows this much at least, so that a steady string looks steady. */
const LEAST_REACH_CENTS = 6;

type Course = readonly (readonly [seconds: number, cents: number | null])[];

/**
 * Pitch of each string over the time that it sounds, against its target. Pauses and other strings are left out: of a take
 * of strings in turn most of each drawing would be empty.
 *
 * @param rows - strings that were measured
 */
export function pitchChart(rows: readonly StringReading[]): Chart {
  const said = rows.map(
    ({ name, deviationCents }) => `${shorten(printable(name), 30)} ${signed(deviationCents ?? 0, 1)}`,
  );
  const longestSeconds = Math.max(...rows.map(soundingSeconds));
  const stacked = stackedDrawings(
    rows.map(({ name }) => name),
    rows.map((row) => `cents, ${whenHeard(row)}`),
    DRAWING_PIXELS,
  );
  return {
    title: "Pitch of each string over time",
    description:
      "Cents from its target (the broken line, where it is in sight), over the time that the string sounds, pauses left out. " +
      `On the mean: ${said.join(", ")}.`,
    height: () => stacked.height,
    option: (width) => {
      const courses = rows.map((string) => courseOf(string, longestSeconds, width));
      return {
        ...stacked.placed(width),
        xAxis: stacked.across(
          valueAxis("seconds that the string sounds", "x", {
            min: 0,
            max: longestSeconds * (1 + GAP_SHARE),
            splitLine: { show: false },
            axisLabel: { ...valueAxis("", "x").axisLabel, showMaxLabel: false },
          }),
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

/** How long a string's passages are together. */
function soundingSeconds({ perPassage }: StringReading): number {
  return perPassage.reduce((sum, { startSeconds, endSeconds }) => sum + endSeconds - startSeconds, 0);
}

/** Where in the take a string was read. */
function whenHeard({ perPassage }: StringReading): string {
  const from = `from ${Math.min(...perPassage.map(({ startSeconds }) => startSeconds)).toFixed(1)} s`;
  return perPassage.length === 1 ? from : `${from}, ${perPassage.length} times`;
}

/** Means of the deviation over as long as two points a pixel allow, passages one after another; null between them. */
function courseOf(
  { perPassage, deviationCents }: StringReading,
  longestSeconds: number,
  width: number,
): Course {
  const stepSeconds = Math.max(SHORTEST_SECONDS, longestSeconds / (POINTS_PER_PIXEL * width));
  const gapSeconds = (GAP_SHARE * longestSeconds) / Math.max(1, perPassage.length - 1);
  let start = 0;
  return perPassage.flatMap((passage): Course => {
    const from = start;
    const to = from + passage.endSeconds - passage.startSeconds;
    start = to + gapSeconds;
    const end = [to, null] as const;
    const { movement } = passage;
    if (movement === null) {
      const cents = passage.deviationCents ?? deviationCents;
      return [[from, cents], [to, cents], end];
    }
    const { hopSeconds, centSeconds } = movement;
    const stride = Math.max(1, Math.round(stepSeconds / hopSeconds));
    const points: [number, number][] = [];
    for (let m = 0; m + stride < centSeconds.length; m += stride) {
      const mean = (centSeconds[m + stride]! - centSeconds[m]!) / (stride * hopSeconds);
      points.push([from + (m + stride / 2) * hopSeconds, passage.deviationCents + mean]);
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
