import type { TakeReading } from "../reading/TakeReading.js";
import { type WelchDifference, welchDifference } from "../statistics/welchDifference.js";

/** What is needed of a take. */
export type ComparedTake = Pick<TakeReading, "strings">;

/** How much stronger one partial of a string is on side a than on side b, the string's common strength taken out. */
export interface PartialDifference {
  readonly string: string;
  readonly number: number;
  /** Mean over all takes of both sides. */
  readonly frequencyHz: number;
  /** a minus b. */
  readonly differenceDb: number;
  /** For this one partial, not for all together; null where a side has one take only or nothing scatters, see `welch`. */
  readonly interval95Db: readonly [number, number] | null;
  readonly welch: WelchDifference;
}

/** The differences, and the strings that none could be had of. */
export interface PartialDifferences {
  readonly differences: readonly PartialDifference[];
  /** `not-in-all-takes`: not read in some take. `too-few-partials`: fewer than two that every take has. */
  readonly leftOut: readonly {
    readonly string: string;
    readonly reason: "not-in-all-takes" | "too-few-partials";
  }[];
}

type Levels = ReadonlyMap<number, { readonly levelDb: number; readonly frequencyHz: number }>;

/**
 * Partial by partial, unsmoothed: the difference between two sides, each take counting once.
 *
 * Of every take a string's common strength is taken off: the median, over its partials, of how far each stands from its mean over
 * all takes. So how hard the string was bowed and how the recording was set cancel, and one partial that is missing almost
 * wholly on a side (a filter, a dead spot) does not drag the others, as it would with a mean. Only partials that every take of both
 * sides has are used: one that drowns in noise in some takes would be counted where it is strong only, and the mean would be of other
 * partials from take to take. Then Welch's t over takes.
 *
 * @param sideA - one reading a take; strings are matched by name. A side without takes has no string in all of them.
 */
export function partialDifferences(
  sideA: readonly ComparedTake[],
  sideB: readonly ComparedTake[],
): PartialDifferences {
  const takes = [...sideA, ...sideB];
  const names = [...new Set(takes.flatMap(({ strings }) => strings.map(({ name }) => name)))];
  const differences: PartialDifference[] = [];
  const leftOut: PartialDifferences["leftOut"][number][] = [];
  for (const string of names) {
    const levels = takes.map((take) => levelsOf(take, string));
    if (sideA.length === 0 || sideB.length === 0 || levels.some(({ size }) => size === 0)) {
      leftOut.push({ string, reason: "not-in-all-takes" });
      continue;
    }
    const common = [...levels[0].keys()]
      .filter((number) => levels.every((one) => one.has(number)))
      .sort((a, b) => a - b);
    if (common.length < 2) leftOut.push({ string, reason: "too-few-partials" });
    else differences.push(...differencesOf(string, common, levels, sideA.length));
  }
  return { differences, leftOut };
}

function levelsOf({ strings }: ComparedTake, name: string): Levels {
  const string = strings.find((one) => one.name === name && one.status === "measured");
  const partials = string?.partials ?? [];
  return new Map(
    partials.flatMap(({ number, levelDb, frequencyHz, shared }) =>
      levelDb === null || shared ? [] : [[number, { levelDb, frequencyHz }]],
    ),
  );
}

function differencesOf(
  string: string,
  common: readonly number[],
  levels: readonly Levels[],
  countA: number,
): PartialDifference[] {
  const level = (one: Levels, number: number) => one.get(number)!.levelDb;
  const profile = new Map(common.map((number) => [number, mean(levels.map((one) => level(one, number)))]));
  const strengths = levels.map((one) =>
    median(common.map((number) => level(one, number) - profile.get(number)!)),
  );
  return common.map((number) => {
    const own = levels.map((one, take) => level(one, number) - strengths[take]);
    const welch = welchDifference(own.slice(0, countA), own.slice(countA));
    return {
      string,
      number,
      frequencyHz: mean(levels.map((one) => one.get(number)!.frequencyHz)),
      differenceDb: welch.difference!,
      interval95Db: welch.interval,
      welch,
    };
  });
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
