/**
 * Holm's step-down adjusted p values: those at or below 0.05 may all be called shown, with a chance of 5 % at most that any of
 * them is false, however the measures hang together (Holm 1979, Scandinavian Journal of Statistics 6).
 *
 * The i-th smallest of m is multiplied by m - i + 1, made at least as large as the one before, and capped at 1.
 *
 * @param pValues - in any order; null for a measure that has none: it stays null and does not count among the m
 * @returns in the order of the input
 */
export function holmAdjusted(pValues: readonly (number | null)[]): (number | null)[] {
  const adjusted: (number | null)[] = pValues.map(() => null);
  const ranked = pValues.flatMap((p, index) => (p === null ? [] : [{ p, index }])).sort((x, y) => x.p - y.p);
  let atLeast = 0;
  for (const [rank, { p, index }] of ranked.entries()) {
    atLeast = Math.max(atLeast, Math.min(1, p * (ranked.length - rank)));
    adjusted[index] = atLeast;
  }
  return adjusted;
}
