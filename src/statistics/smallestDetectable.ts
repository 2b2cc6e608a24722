import { type TwoSides, welchPower } from "./welchPower.js";

/** What the test is asked to do. */
export interface TestDemand {
  /** Level of the test; default 0.05. */
  readonly significance?: number;
  /** Probability that a true difference of this size is shown; default 0.8. */
  readonly power?: number;
}

/** Beyond this many takes a side nobody records. */
const MOST_TAKES = 200;
const MOST_STEPS = 60;
/** Share of the difference that it is found to. */
const PRECISION = 1e-6;

/**
 * Smallest true difference that Welch's test shows with 80 % probability at the level used.
 *
 * The standard deviations are taken for the true ones; from few takes they are themselves uncertain (at 3 a side, 4 degrees of
 * freedom, by a factor of 0.6 to 2.9).
 *
 * @returns in the unit of the standard deviations; null with fewer than two takes a side or no scatter to judge by
 */
export function smallestDetectable(
  sides: TwoSides,
  { significance = 0.05, power = 0.8 }: TestDemand = {},
): number | null {
  if (sides.countA < 2 || sides.countB < 2 || !(sides.sdA > 0 || sides.sdB > 0)) return null;
  const powerAt = welchPower(sides, significance);
  const scale = Math.sqrt(sides.sdA ** 2 / sides.countA + sides.sdB ** 2 / sides.countB);
  let low = 0;
  let high = scale;
  let below = significance - power;
  let above = powerAt(high) - power;
  while (above < 0) {
    low = high;
    below = above;
    high *= 2;
    above = powerAt(high) - power;
  }
  // Regula falsi, halving the value of an end that stays (Illinois): a few steps where bisection takes twenty.
  let last = 0;
  for (let step = 0; step < MOST_STEPS && high - low > PRECISION * high; step++) {
    const between = (low * above - high * below) / (above - below);
    const value = powerAt(between) - power;
    if (Math.abs(value) < PRECISION * power) return between;
    if (value < 0) {
      low = between;
      below = value;
      if (last < 0) above /= 2;
    } else {
      high = between;
      above = value;
      if (last > 0) below /= 2;
    }
    last = value;
  }
  return (low + high) / 2;
}

/**
 * How many takes a side (as many on both) it needs to show a true difference with 80 % probability.
 *
 * @param sides - what scatter to reckon with, from take to take
 * @param difference - the one to be shown; its sign does not matter
 * @returns null where 200 takes a side would not do, or there is no scatter to judge by
 */
export function takesNeeded(
  { sdA, sdB }: Pick<TwoSides, "sdA" | "sdB">,
  difference: number,
  { significance = 0.05, power = 0.8 }: TestDemand = {},
): number | null {
  if (!(sdA > 0 || sdB > 0)) return null;
  const isEnough = (count: number) =>
    welchPower({ sdA, sdB, countA: count, countB: count }, significance)(Math.abs(difference)) >= power;
  // Large samples would need (z + z)^2 of the summed variances: 7.85 at 5 % and 80 %. Few takes need some more; search up from there.
  let tooFew = 1;
  let enough = Math.min(MOST_TAKES, Math.max(2, Math.ceil((7.85 * (sdA ** 2 + sdB ** 2)) / difference ** 2)));
  while (!isEnough(enough)) {
    if (enough === MOST_TAKES) return null;
    tooFew = enough;
    enough = Math.min(MOST_TAKES, enough + Math.max(1, enough >> 2));
  }
  while (enough - tooFew > 1) {
    const middle = tooFew === 1 ? Math.max(2, enough - 1 - (enough >> 3)) : (tooFew + enough) >> 1;
    if (isEnough(middle)) enough = middle;
    else tooFew = middle;
  }
  return enough;
}
