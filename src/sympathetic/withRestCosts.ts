import type { PartialFit } from "./fitPartial.js";

/** Frames of 20 ms every 10 ms hold so many independent values each (real and imaginary part). */
export const VALUES_A_FRAME = 1.5;
/** One partial says no more than this against an explanation: it may lie over another string's, or have gone astray. */
const MOST_OF_A_PARTIAL = 60;

interface FittedPartial {
  readonly number: number;
  readonly fit: PartialFit;
}

interface Explained {
  readonly partials: readonly FittedPartial[];
  readonly cost: number;
}

/**
 * Adds to the cost of each explanation of a pluck what it leaves unexplained: for every partial twice the logarithm of its
 * likelihood, the noise being unknown, against the best of the explanations.
 */
export function withRestCosts<T extends Explained>(tried: readonly T[]): T[] {
  const costOf = ({ fit }: FittedPartial) =>
    VALUES_A_FRAME * fit.frameCount * Math.log(fit.restPower / fit.frameCount);
  const best = new Map<number, number>();
  for (const partial of tried.flatMap(({ partials }) => partials)) {
    best.set(partial.number, Math.min(best.get(partial.number) ?? Number.POSITIVE_INFINITY, costOf(partial)));
  }
  return tried.map((one) => ({
    ...one,
    cost: [...best].reduce((sum, [number, least]) => {
      const partial = one.partials.find((other) => other.number === number);
      return (
        sum +
        (partial === undefined ? MOST_OF_A_PARTIAL : Math.min(MOST_OF_A_PARTIAL, costOf(partial) - least))
      );
    }, one.cost),
  }));
}
