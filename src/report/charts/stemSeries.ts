/** Coordinates of a drawing, as the chart library gives them. */
interface DrawingApi {
  value(dimension: number): number;
  coord(place: readonly [number, number]): [number, number];
}

/** Upright lines from the foot of the drawing: bars would widen the axis by half of their width, each drawing by another. */
export function stemSeries(
  data: readonly (readonly [place: number, height: number])[],
  colour: string,
  width = 3,
) {
  return {
    type: "custom" as const,
    silent: true,
    data,
    renderItem: (_: unknown, api: DrawingApi) => {
      const [x, top] = api.coord([api.value(0), api.value(1)]);
      const [, foot] = api.coord([api.value(0), 0]);
      return {
        type: "line",
        shape: { x1: x, y1: foot, x2: x, y2: top },
        style: { stroke: colour, lineWidth: width },
      };
    },
  };
}
