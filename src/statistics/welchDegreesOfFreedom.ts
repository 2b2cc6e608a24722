/**
 * Degrees of freedom of a difference of two means (Welch 1947, Satterthwaite 1946).
 *
 * @param varianceA - of the mean of side A: its variance over its count
 * @param freedomA - count of side A minus 1
 */
export function welchDegreesOfFreedom(
  varianceA: number,
  freedomA: number,
  varianceB: number,
  freedomB: number,
): number {
  const total = varianceA + varianceB;
  return 1 / ((varianceA / total) ** 2 / freedomA + (varianceB / total) ** 2 / freedomB);
}
