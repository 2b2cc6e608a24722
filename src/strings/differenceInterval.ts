type Interval = readonly [number, number];

/** 95 % interval of one reading minus another, the two being independent: their half widths add as squares. */
export function differenceInterval(of: Interval, minus: Interval): [number, number] {
  const middle = (of[0] + of[1]) / 2 - (minus[0] + minus[1]) / 2;
  const half = Math.hypot((of[1] - of[0]) / 2, (minus[1] - minus[0]) / 2);
  return [middle - half, middle + half];
}
