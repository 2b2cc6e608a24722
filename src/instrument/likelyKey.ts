/** The known key that an unknown one was probably meant to be, or null. */
export function likelyKey(given: string, known: readonly string[]): string | null {
  const wanted = given.toLowerCase();
  // A key without its unit is the commonest slip: `a4` for `a4Hz`, `length` for `lengthMm`.
  const withoutUnit = known.find((key) => wanted.length > 1 && key.toLowerCase().startsWith(wanted));
  if (withoutUnit) return withoutUnit;
  const ranked = known
    .map((key) => ({ key, distance: editDistance(wanted, key.toLowerCase()) }))
    .sort((a, b) => a.distance - b.distance);
  const best = ranked[0];
  return best && best.distance <= Math.min(2, best.key.length / 2) ? best.key : null;
}

/** Levenshtein distance, row by row. */
function editDistance(from: string, to: string): number {
  // A long hostile key need not be compared letter by letter: it is far from every known one.
  if (from.length > 60) return from.length;
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const replaced = row[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[to.length]!;
}
