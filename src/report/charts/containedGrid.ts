/**
 * A plot that fills its drawing, labels and names of its axes within. Without a browser the width of letters is an estimate; room on
 * the left is for fonts that run wider.
 */
export function containedGrid(right = 24, top = 6) {
  return {
    left: 16,
    right,
    top,
    bottom: 4,
    outerBoundsMode: "same" as const,
    outerBoundsContain: "all" as const,
  };
}
