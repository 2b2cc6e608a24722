import { chartColours } from "./chartColours.js";

interface DrawingApi {
  coord(place: readonly [number, number]): [number, number];
}

/**
 * The range between a lower and an upper curve, filled, with an edge that can be seen.
 *
 * @param points - rows of place, lower and upper value, in order; null values part the band
 */
export function bandSeries(points: readonly (readonly [place: number, low: number, high: number] | null)[]) {
  const runs: (readonly [number, number, number])[][] = [[]];
  for (const point of points) {
    if (point === null) runs.push([]);
    else runs[runs.length - 1]!.push(point);
  }
  const filled = runs.filter(({ length }) => length > 0);
  return {
    type: "custom" as const,
    silent: true,
    clip: true,
    z: 1,
    data: filled.map((_, i) => [i, 0]),
    renderItem: (parameters: { readonly dataIndex: number }, api: DrawingApi) => {
      const run = filled[parameters.dataIndex]!;
      if (run.length === 1) {
        const [[place, low, high]] = run as [readonly [number, number, number]];
        const [x, bottom] = api.coord([place, low]);
        const [, top] = api.coord([place, high]);
        return {
          type: "rect",
          shape: { x: x - 4, y: top, width: 8, height: bottom - top },
          style: { fill: chartColours.band.light, stroke: chartColours.bandEdge.light, lineWidth: 1 },
        };
      }
      const upper = run.map(([place, , high]) => api.coord([place, high]));
      const lower = run.map(([place, low]) => api.coord([place, low])).reverse();
      return {
        type: "polygon",
        shape: { points: [...upper, ...lower] },
        style: { fill: chartColours.band.light, stroke: chartColours.bandEdge.light, lineWidth: 1 },
      };
    },
  };
}
