import { median } from "../signal/median.js";

/** The level without buzz is looked for this far around each moment. */
const REACH_SECONDS = 4;
const KNOT_SECONDS = 0.25;
/** Without knowing where it buzzes, what the weakest of this share of the moments reach. */
const QUIET_SHARE = 0.2;
/** Every so many frames is looked at. */
const STRIDE = 3;
const LEAST_VALUES = 12;

/**
 * What a band has at each moment without buzz, in decibels.
 *
 * @param levelDb - level of the band, frame by frame
 * @param isKnown - frames that count
 * @param areQuiet - true where these are without buzz: their median is taken; otherwise the level that a fifth of them stays below
 */
export function bandBaseline(
  levelDb: Float64Array,
  hopSeconds: number,
  isKnown: Uint8Array,
  areQuiet: boolean,
): Float64Array {
  const reach = Math.round(REACH_SECONDS / hopSeconds);
  const knot = Math.max(1, Math.round(KNOT_SECONDS / hopSeconds));
  const knots: number[] = [];
  for (let centre = 0; centre < levelDb.length + knot; centre += knot) {
    let within = reach;
    let values: number[] = [];
    // Where nothing quiet is near, look further.
    do {
      values = [];
      for (let m = Math.max(0, centre - within); m < Math.min(levelDb.length, centre + within); m += STRIDE) {
        if (isKnown[m] === 1) values.push(levelDb[m]);
      }
      within *= 2;
    } while (values.length < LEAST_VALUES && within < 2 * levelDb.length);
    knots.push(areQuiet ? median(values) : quantile(values, QUIET_SHARE));
  }
  return Float64Array.from(levelDb, (_, m) => {
    const position = m / knot;
    const k = Math.min(knots.length - 2, Math.floor(position));
    return k < 0 ? knots[0] : knots[k] + (position - k) * (knots[k + 1] - knots[k]);
  });
}

function quantile(values: readonly number[], share: number): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}
