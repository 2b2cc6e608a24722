import type { TrompetteDocument } from "../../trompette/trompetteDocumentSchema.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { containedGrid } from "./containedGrid.js";
import { legend } from "./legend.js";
import { markLine } from "./markLine.js";
import { valueAxis } from "./valueAxis.js";

const STROKE = "stroke";
const WEAK = "weak stroke";
const MISSED = "due, not found";
/** Beside the plot, for the word at the line of the mean. */
const MEAN_PIXELS = 52;

/** Every stroke of the buzzing bridge over time: when it begins and how strong it is, and where one was due and none was found. */
export function strokesChart({
  strokes,
  missedSeconds,
  strengthDb,
  durationSeconds,
}: TrompetteDocument): Chart {
  const levels = strokes.flatMap((stroke) => stroke.strengthDb ?? []);
  const floor = 5 * Math.floor((Math.min(...levels, 0) - 4) / 5);
  const top = 5 * Math.ceil((Math.max(...levels, floor + 10) + 1) / 5);
  const step = [5, 10, 20].find((one) => 7 * one >= top - floor) ?? 50;
  const weak = strokes.filter((stroke) => stroke.weak).length;
  const point = (isWeak: boolean) => ({
    type: "scatter",
    silent: true,
    name: isWeak ? WEAK : STROKE,
    symbol: isWeak ? "triangle" : "circle",
    symbolSize: 9,
    itemStyle: { color: isWeak ? chartColours.second.light : chartColours.first.light, opacity: 1 },
    data: strokes.flatMap(({ onsetSeconds, strengthDb: level, weak: own }) =>
      level === null || own !== isWeak ? [] : [[onsetSeconds, level]],
    ),
  });
  const others = [...(weak > 0 ? [WEAK] : []), ...(missedSeconds.length > 0 ? [MISSED] : [])];
  const key = (width: number) => legend(others.length === 0 ? [] : [STROKE, ...others], width);
  return {
    title: "Every stroke",
    description:
      `Strength of the buzz over the drone's own tone, decibels, at the time it begins: ${strokes.length} strokes. ` +
      (weak === 0 ? "None is weak. " : `Triangles are weak ones (${weak}). `) +
      (missedSeconds.length === 0
        ? "None that was due is missing."
        : `Crosses at the foot mark where one was due and none was found (${missedSeconds.length}).`),
    height: (width) => (width < 500 ? 250 : 290),
    option: (width) => ({
      legend: key(width).option,
      grid: containedGrid(MEAN_PIXELS, 6 + key(width).pixels),
      xAxis: valueAxis("seconds", "x", {
        min: Math.max(0, Math.floor((strokes[0]?.onsetSeconds ?? 0) - 0.5)),
        max: Math.min(
          Math.ceil(durationSeconds),
          Math.ceil((strokes.at(-1)?.onsetSeconds ?? durationSeconds) + 0.5),
        ),
        splitLine: { show: false },
      }),
      yAxis: valueAxis("dB", "y", { min: floor, max: top, interval: step }),
      series: [
        {
          ...point(false),
          ...(strengthDb !== null && { markLine: markLine({ yAxis: strengthDb.mean }, "mean") }),
        },
        point(true),
        {
          name: MISSED,
          type: "scatter",
          silent: true,
          symbol: "path://M-1,-1L1,1M-1,1L1,-1",
          symbolSize: 9,
          itemStyle: {
            color: "transparent",
            borderColor: chartColours.second.light,
            borderWidth: 2,
            opacity: 1,
          },
          data: missedSeconds.map((seconds) => [seconds, floor + 1.5]),
        },
      ],
    }),
  };
}
