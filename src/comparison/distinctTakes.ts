import type { TakeMeasures } from "./takeMeasures.js";

/** Copies, made louder or converted, agree that closely in all bands; newly placed takes never do (our policy). */
const COPIES_WITHIN_DB = 0.01;

/** How many takes a side really has: copies of one and the same, which make it look surer than it is, count once. */
export function distinctTakes(takes: readonly TakeMeasures[]): number {
  const shares = takes.map(
    ({ measures }) =>
      new Map(
        measures
          .filter(({ measure, string }) => string === null && /^(lowRegister|octave\d+)Db$/.test(measure))
          .map(({ measure, value }) => [measure, value]),
      ),
  );
  return shares.filter((one, i) => !shares.slice(0, i).some((other) => areAlike(one, other))).length;
}

function areAlike(one: ReadonlyMap<string, number>, other: ReadonlyMap<string, number>): boolean {
  return (
    one.size === other.size &&
    one.size > 0 &&
    [...one].every(
      ([measure, value]) => Math.abs(value - (other.get(measure) ?? Number.NaN)) < COPIES_WITHIN_DB,
    )
  );
}
