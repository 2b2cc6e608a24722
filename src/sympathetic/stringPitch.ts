import { tQuantile } from "../statistics/tQuantile.js";

/** A value with the standard deviation it was measured with. */
export interface Measured {
  readonly value: number;
  readonly deviation: number;
}

/** Mean of a few measured values with its 95 % interval. */
export interface MeasuredMean {
  readonly mean: number;
  readonly interval95: readonly [number, number];
}

/** What the uncertainty of one pluck is itself known by: so many independent values, as trials of the coverage have shown. */
const FREEDOM_OF_A_PLUCK = 8;
/** Rounding, the attack and the window stay below this. */
const LEAST_DEVIATION = 0.015;
/** What makes one pluck uncertain, a glide taken for a beat, makes the next one so in the same sense: so much of its variance is common. */
const COMMON_SHARE = 0.3;

/**
 * How much the pitch differs from pluck to pluck of one string beyond what each is uncertain by, over all strings of a take.
 *
 * @param strings - the plucks of each string
 * @returns variance and its degrees of freedom (0 where no string was plucked twice)
 */
export function variationBetween(strings: readonly (readonly Measured[])[]): {
  readonly variance: number;
  readonly degreesOfFreedom: number;
} {
  let squares = 0;
  let expected = 0;
  let degreesOfFreedom = 0;
  for (const plucks of strings) {
    if (plucks.length < 2) continue;
    const mean = plucks.reduce((sum, { value }) => sum + value / plucks.length, 0);
    for (const { value, deviation } of plucks) {
      squares += (value - mean) ** 2;
      expected += deviation ** 2 * (1 - 1 / plucks.length);
    }
    degreesOfFreedom += plucks.length - 1;
  }
  const variance = degreesOfFreedom === 0 ? 0 : Math.max(0, (squares - expected) / degreesOfFreedom);
  return { variance, degreesOfFreedom };
}

/**
 * Mean of the plucks of a string, each weighted by its own uncertainty and what plucks differ by in this take (DerSimonian & Laird
 * 1986), with a 95 % interval by Student's t, whose degrees of freedom follow from both parts (Satterthwaite 1946).
 *
 * @param plucks - at least one
 */
export function stringPitch(
  plucks: readonly Measured[],
  between: { readonly variance: number; readonly degreesOfFreedom: number },
): MeasuredMean {
  let weight = 0;
  let sum = 0;
  let own = 0;
  for (const { value, deviation } of plucks) {
    const variance = deviation ** 2 + LEAST_DEVIATION ** 2;
    const share = 1 / (variance + between.variance);
    weight += share;
    sum += share * value;
    own += variance / plucks.length;
  }
  const ofPlucks = own ** 2 / (FREEDOM_OF_A_PLUCK * plucks.length);
  const ofBetween = between.degreesOfFreedom > 0 ? between.variance ** 2 / between.degreesOfFreedom : 0;
  const freedom = (own + between.variance) ** 2 / (ofPlucks + ofBetween);
  const common = COMMON_SHARE * (own - own / plucks.length);
  const half = tQuantile(0.975, freedom) * Math.sqrt(1 / weight + common);
  const mean = sum / weight;
  return { mean, interval95: [mean - half, mean + half] };
}
