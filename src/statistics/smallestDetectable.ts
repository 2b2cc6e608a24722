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
const BISECTIONS = 40;

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
  while (powerAt(high) < power) {
    low = high;
    high *= 2;
  }
  for (let step = 0; step < BISECTIONS && high - low > 1e-6 * high; step++) {
    const middle = (low + high) / 2;
    if (powerAt(middle) < power) low = middle;
    else high = middle;
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
  if (!isEnough(MOST_TAKES)) return null;
  let tooFew = 1;
  let enough = MOST_TAKES;
  while (enough - tooFew > 1) {
    const middle = (tooFew + enough) >> 1;
    if (isEnough(middle)) enough = middle;
    else tooFew = middle;
  }
  return enough;
}
