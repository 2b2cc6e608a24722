/** Place of a drawing within its picture, in pixels from the edges, the numbers beside its axes within it; names of axes stand further out. */
export function labelledGrid(edges: {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}) {
  return { ...edges, outerBoundsMode: "same" as const, outerBoundsContain: "axisLabel" as const };
}
