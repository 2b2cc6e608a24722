import { encode } from "fast-png";
import type { Spectrogram } from "../../audio/Spectrogram.js";
import type { MeasureDocument } from "../../reading/measureDocumentSchema.js";
import { printable } from "../printable.js";
import { shorten } from "../shorten.js";
import { base64 } from "./base64.js";
import type { Chart } from "./Chart.js";
import { chartColours } from "./chartColours.js";
import { frequencyAxis, octavesOf } from "./frequencyAxis.js";
import { nameLabels } from "./nameLabels.js";
import { valueAxis } from "./valueAxis.js";

type Take = MeasureDocument["takes"][number];

/** Left of the picture, for notes with their hertz; on a phone for notes alone. */
const LEFT_PIXELS = { wide: 66, narrow: 34 } as const;
/** Right of it, for the names of the strings, and where there are none. */
const NAMES_PIXELS = { wide: 132, narrow: 112 } as const;
const RIGHT_PIXELS = 24;
const NAME_COLUMNS = { wide: 15, narrow: 13 } as const;
const TOP = 42;
const BOTTOM = 46;

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
  const height = (width: number) => (width < 500 ? 340 : 410);
  const size = (width: number) => (width < 500 ? "narrow" : "wide");
  const left = (width: number) => LEFT_PIXELS[size(width)];
  const right = (width: number) => (measured.length === 0 ? RIGHT_PIXELS : NAMES_PIXELS[size(width)]);
  const names = measured
    .map(({ name, frequencyHz }) => `${shorten(printable(name), 30)} (${frequencyHz.toFixed(1)} Hz)`)
    .join(", ");
  return {
    title: "The take as a picture",
    description: [
      `${seconds.toFixed(0)} seconds, the stronger the clearer (${spectrogram.rangeDb} dB in all).`,
      ...(passages.length === 0
        ? []
        : [
            passages.length === 1
              ? "The bar on top is the passage that was read."
              : `The bars on top are the ${passages.length} passages that were read.`,
          ]),
      ...(measured.length === 0 ? [] : [`The lines are the fundamentals of ${names}.`]),
    ].join(" "),
    height,
    backdrop: (width, id) => {
      const place = `x="${left(width)}" y="${TOP}" width="${width - left(width) - right(width)}" height="${height(width) - TOP - BOTTOM}"`;
      return (
        `<mask id="${id}m"><image ${place} preserveAspectRatio="none" href="data:image/png;base64,${png}"/></mask>` +
        `<rect ${place} fill="${chartColours.ink.light}" mask="url(#${id}m)"/>`
      );
    },
    option: (width) => ({
      grid: { left: left(width), right: right(width), top: TOP, bottom: BOTTOM },
      xAxis: valueAxis("seconds", "x", {
        min: 0,
        max: seconds,
        splitLine: { show: false },
        axisLabel: { ...valueAxis("", "x").axisLabel, showMaxLabel: seconds % 5 === 0 },
      }),
      yAxis: frequencyAxis(lowestHz, highestHz, "y", size(width) === "wide"),
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
        ...measured.map(({ frequencyHz }) => ({
          type: "line",
          silent: true,
          showSymbol: false,
          lineStyle: { color: chartColours.second.light, width: 1, type: "dashed" },
          data: [
            [0, octavesOf(frequencyHz)],
            [seconds, octavesOf(frequencyHz)],
          ],
        })),
        {
          type: "custom",
          silent: true,
          clip: false,
          z: 5,
          data: [[0, 0]],
          renderItem: (_: unknown, api: DrawingApi) => {
            const places = measured.map(({ name, frequencyHz }) => {
              const [x, pixels] = api.coord([seconds, octavesOf(frequencyHz)]);
              return { name, pixels, x };
            });
            const x = places[0]?.x ?? 0;
            return {
              type: "group",
              children: nameLabels(places, NAME_COLUMNS[size(width)]).map(({ text, pixels }) => ({
                type: "text",
                style: {
                  text,
                  fill: chartColours.second.light,
                  fontSize: 13,
                  fontFamily: "inherit",
                  verticalAlign: "middle",
                  x: x + 8,
                  y: pixels,
                  align: "left",
                },
              })),
            };
          },
        },
      ],
    }),
  };
}

interface DrawingApi {
  value(dimension: number): number;
  coord(place: readonly [number, number]): [number, number];
}
