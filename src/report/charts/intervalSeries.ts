import { chartColours } from "./chartColours.js";

/** Coordinates of a drawing, as the chart library gives them. */
interface DrawingApi {
  value(dimension: number): number;
  coord(place: readonly [number, number]): [number, number];
}

/** Caps stick out of the points, so that a range narrower than its point is seen. */
const CAP_PIXELS = 7;

/**
 * Intervals as lines with caps.
 *
 * @param direction - along which axis they lie
 * @param data - rows of place, lower end, upper end
 * @param capPixels - of the caps to either side
 */
export function intervalSeries(
  direction: "x" | "y",
  data: readonly (readonly [place: number, low: number, high: number])[],
  colour: string = chartColours.ink.light,
  capPixels: number = CAP_PIXELS,
) {
  return {
    type: "custom" as const,
    silent: true,
    z: 3,
    encode: direction === "x" ? { x: [1, 2], y: 0 } : { x: 0, y: [1, 2] },
    data,
    renderItem: (_: unknown, api: DrawingApi) => {
      const ends = [1, 2].map((end) =>
        api.coord(direction === "x" ? [api.value(end), api.value(0)] : [api.value(0), api.value(end)]),
      );
      const line = (from: readonly number[], to: readonly number[]) => ({
        type: "line",
        shape: { x1: from[0], y1: from[1], x2: to[0], y2: to[1] },
        style: { stroke: colour, lineWidth: 1.75 },
      });
      const cap = ([x, y]: readonly number[]) =>
        direction === "x"
          ? line([x!, y! - capPixels], [x!, y! + capPixels])
          : line([x! - capPixels, y!], [x! + capPixels, y!]);
      return { type: "group", children: [line(ends[0]!, ends[1]!), ...ends.map(cap)] };
    },
  };
}
