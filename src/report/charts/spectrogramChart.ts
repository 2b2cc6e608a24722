import { encode } from "fast-png";
import type { Spectrogram } from "../../audio/Spectrogram.js";
import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { printable } from "../printable.js";
import { base64 } from "./base64.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { valueAxis } from "./valueAxis.js";

type Take = MeasureDocument["takes"][number];

const LEFT = 66;
const RIGHT = 16;
const TOP = 34;
const BOTTOM = 46;
/** As many names as stand above one another. */
const MOST_NAMES = 18;

/**
 * The whole take as a picture: time to the right, pitch up, the stronger the clearer; bars over it show the passages that were
 * read, lines the strings. The levels stand in it as a PNG that masks the ink, so that it suits light and dark pages.
 */
export function spectrogramChart(
  spectrogram: Spectrogram,
  passages: Take["passages"],
  strings: Take["strings"],
): Chart {
  const { columnCount, columnSeconds, rowCount, lowestHz, highestHz, levels } = spectrogram;
  const seconds = columnCount * columnSeconds;
  const upright = new Uint8Array(levels.length);
  for (let row = 0; row < rowCount; row++) {
    for (let column = 0; column < columnCount; column++) {
      upright[(rowCount - 1 - row) * columnCount + column] = levels[column * rowCount + row]!;
    }
  }
  const png = base64(encode({ width: columnCount, height: rowCount, data: upright, channels: 1, depth: 8 }));
  const measured = strings.flatMap(({ name, frequencyHz }) =>
    frequencyHz === null ? [] : [{ name, frequencyHz }],
  );
  const named = apart(measured, Math.log2(highestHz / lowestHz) / MOST_NAMES);
  const height = (width: number) => (width < 500 ? 330 : 400);
  return {
    title: "The take as a picture",
    description: [
      `${seconds.toFixed(0)} seconds, the stronger the clearer (${spectrogram.rangeDb} dB in all).`,
      ...(passages.length === 0
        ? []
        : [`The bars on top are the ${passages.length} passages that were read.`]),
      ...(measured.length === 0
        ? []
        : [`The lines are the fundamentals of ${measured.map(({ name }) => printable(name)).join(", ")}.`]),
    ].join(" "),
    height,
    backdrop: (width, id) => {
      const place = `x="${LEFT}" y="${TOP}" width="${width - LEFT - RIGHT}" height="${height(width) - TOP - BOTTOM}"`;
      return (
        `<mask id="${id}m"><image ${place} preserveAspectRatio="none" href="data:image/png;base64,${png}"/></mask>` +
        `<rect ${place} fill="${chartColours.ink.light}" mask="url(#${id}m)"/>`
      );
    },
    option: () => ({
      grid: { left: LEFT, right: RIGHT, top: TOP, bottom: BOTTOM },
      xAxis: valueAxis("seconds", "x", {
        min: 0,
        max: seconds,
        splitLine: { show: false },
        axisLabel: { color: chartColours.faint.light, hideOverlap: true, showMaxLabel: false },
      }),
      yAxis: frequencyAxis(lowestHz, highestHz, "y"),
      series: [
        {
          type: "custom",
          silent: true,
          clip: false,
          data: passages.map(({ startSeconds, endSeconds }) => [startSeconds, endSeconds]),
          renderItem: (_: unknown, api: DrawingApi) => {
            const [left] = api.coord([api.value(0), octavesOf(highestHz)]);
            const [right] = api.coord([api.value(1), octavesOf(highestHz)]);
            return {
              type: "rect",
              shape: { x: left, y: TOP - 8, width: Math.max(1, right - left), height: 5 },
              style: { fill: chartColours.accent.light },
            };
          },
        },
        ...measured.map(({ name, frequencyHz }) => ({
          type: "line",
          silent: true,
          showSymbol: false,
          lineStyle: { color: chartColours.second.light, width: 1, type: "dashed" },
          data: [
            [0, octavesOf(frequencyHz)],
            [seconds, octavesOf(frequencyHz)],
          ],
          endLabel: {
            show: named.has(frequencyHz),
            formatter: printable(name),
            color: chartColours.second.light,
            align: "right",
            offset: [-6, -9],
          },
        })),
      ],
    }),
  };
}

/** Frequencies far enough from each other, in octaves, that names beside them don't cover one another. */
function apart(strings: readonly { readonly frequencyHz: number }[], octaves: number): Set<number> {
  const chosen: number[] = [];
  for (const hz of strings.map(({ frequencyHz }) => frequencyHz).sort((a, b) => a - b)) {
    if (chosen.every((other) => Math.log2(hz / other) >= octaves)) chosen.push(hz);
  }
  return new Set(chosen);
}

interface DrawingApi {
  value(dimension: number): number;
  coord(place: readonly [number, number]): [number, number];
}
