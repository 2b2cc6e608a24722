/** How much of the scatter lies between groups, and how much within them, as standard deviations. */
export interface VarianceComponents {
  /** 0 where the groups' means differ by no more than the scatter within explains. */
  readonly between: number;
  readonly within: number;
}

/**
 * Splits the scatter of values in groups: one-way analysis of variance with random groups. The mean squares are MSB between and
 * MSW within; within is the root of MSW, between that of (MSB - MSW) / n0, where n0 = (N - sum n_i^2 / N) / (k - 1) for groups of
 * unlike sizes (Montgomery, Design and Analysis of Experiments; from memory).
 *
 * @param groups - for takes: the values of each take
 * @returns null with fewer than two groups, or where no group has a second value
 */
export function varianceComponents(groups: readonly (readonly number[])[]): VarianceComponents | null {
  const filled = groups.filter(({ length }) => length > 0);
  const all = filled.flat();
  const freedomWithin = all.length - filled.length;
  if (filled.length < 2 || freedomWithin < 1) return null;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const grand = mean(all);
  const betweenSquares = filled.reduce((sum, group) => sum + group.length * (mean(group) - grand) ** 2, 0);
  const withinSquares = filled.reduce((sum, group) => {
    const own = mean(group);
    return sum + group.reduce((squares, value) => squares + (value - own) ** 2, 0);
  }, 0);
  const meanWithin = withinSquares / freedomWithin;
  const size =
    (all.length - filled.reduce((sum, { length }) => sum + length ** 2, 0) / all.length) /
    (filled.length - 1);
  const meanBetween = betweenSquares / (filled.length - 1);
  return {
    between: Math.sqrt(Math.max(0, (meanBetween - meanWithin) / size)),
    within: Math.sqrt(meanWithin),
  };
}
