const MM_PER_METRE = 1000;
const GRAMS_PER_KILOGRAM = 1000;

/**
 * Tension of an ideal string, by Mersenne's law in Taylor's form: T = mu (2 L f)^2.
 *
 * Stiffness is left out: it raises a plain steel string of hurdy-gurdy size by less than a cent.
 *
 * @param frequencyHz - of the open string
 * @param lengthMm - vibrating length, nut to bridge
 * @param linearDensityGramsPerMetre - mass over length
 * @returns in newtons
 * @example
 * ```ts
 * stringTension(20, 5000, 40); // 1600 N
 * ```
 */
export function stringTension(
  frequencyHz: number,
  lengthMm: number,
  linearDensityGramsPerMetre: number,
): number {
  const metresPerSecond = 2 * (lengthMm / MM_PER_METRE) * frequencyHz;
  return (linearDensityGramsPerMetre / GRAMS_PER_KILOGRAM) * metresPerSecond ** 2;
}

/** The linear density, in grams per metre, that has this tension in newtons at this pitch and length. */
export function linearDensityForTension(
  tensionNewton: number,
  frequencyHz: number,
  lengthMm: number,
): number {
  return tensionNewton / stringTension(frequencyHz, lengthMm, 1);
}
