/** Of a Gaussian, a quarter of all values are smaller than this many standard deviations, and 68 % smaller than one. */
const QUARTER = 0.25;
const QUARTER_OF_GAUSSIAN = 0.3186;
const ONE_SD_SHARE = 0.6827;

/**
 * Standard deviation of what moves by chance. Where it is not known which frames are quiet it is judged by the smallest quarter, so that
 * strokes that fill half of the time make it no more than twice too large.
 */
export function chanceSize(values: Float64Array, isKnown: Uint8Array, areQuiet: boolean): number {
  const sizes = values
    .filter((_, m) => isKnown[m] === 1)
    .map(Math.abs)
    .sort();
  const share = areQuiet ? ONE_SD_SHARE : QUARTER;
  return (sizes[Math.floor(share * sizes.length)] ?? 1) / (areQuiet ? 1 : QUARTER_OF_GAUSSIAN);
}
