/**
 * Rounds for printing as JSON, so that a document does not change with the last bit of a computation.
 *
 * @returns null for null and for what is not a finite number; never minus zero
 */
export function rounded(value: number | null, digits: number): number | null {
  if (value === null || !Number.isFinite(value)) return null;
  const result = Number(value.toFixed(digits));
  return result === 0 ? 0 : result;
}

/** For values that every reading has; one that is not finite is a fault of the analysis and stays visible as such. */
export function roundedFinite(value: number, digits: number): number {
  return rounded(value, digits) ?? Number.NaN;
}

/** Both ends of an interval; null where either is not finite. */
export function roundedInterval(
  bounds: readonly [number, number] | null,
  digits: number,
): [number, number] | null {
  return bounds?.every(Number.isFinite)
    ? [roundedFinite(bounds[0], digits), roundedFinite(bounds[1], digits)]
    : null;
}

/** Levels by band, to 0.01 dB. */
export function roundedBands(levels: Readonly<Record<string, number | null>>): Record<string, number | null> {
  return Object.fromEntries(Object.entries(levels).map(([band, levelDb]) => [band, rounded(levelDb, 2)]));
}
