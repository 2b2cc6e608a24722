import { welchDifference } from "../statistics/welchDifference.js";
import type { WorkDifference, WorkEffect } from "./HistoryReading.js";
import type { SingleMoment } from "./stringMoments.js";
import type { PlacedTake } from "./takesInOrder.js";

/** Takes further off in time say more about the drift than about the work (our policy). */
const LARGEST_SIDE = 5;

interface Value {
  readonly value: number;
  /** Half width of its own 95 % interval. */
  readonly half: number | null;
}

/**
 * What was different after each work: the takes up to the next work against those since the one before, at most five a side, those
 * nearest to it.
 */
export function workEffects(
  takes: readonly PlacedTake[],
  strings: readonly {
    readonly name: string;
    readonly moments: readonly SingleMoment[];
    readonly othersCents: readonly (number | null)[];
  }[],
  commonCents: readonly (number | null)[],
): WorkEffect[] {
  const starts = takes.flatMap((take, i) =>
    take.work !== null && take.stretch !== (takes[i - 1]?.stretch ?? 0) ? [i] : [],
  );
  const byStretch = new Map<number, number[]>();
  for (const [i, { stretch }] of takes.entries()) {
    const its = byStretch.get(stretch);
    if (its === undefined) byStretch.set(stretch, [i]);
    else its.push(i);
  }
  return starts.map((start) => {
    const { stretch, work } = takes[start]!;
    const before = (byStretch.get(stretch - 1) ?? []).slice(-LARGEST_SIDE);
    const after = byStretch.get(stretch)!.slice(0, LARGEST_SIDE);
    const commonOf = (places: readonly number[]) => places.flatMap((i) => unread(commonCents[i] ?? null));
    return {
      work: work!,
      take: start,
      days: before.length === 0 ? null : meanDays(after, takes) - meanDays(before, takes),
      common: differenceOf(commonOf(before), commonOf(after)),
      strings: strings.map(({ name, moments, othersCents }) => {
        const [its, later] = sameNote(momentsIn(moments, before), momentsIn(moments, after));
        const ownOf = ({ take, cents }: SingleMoment) => {
          const others = othersCents[take] ?? null;
          return unread(others === null ? null : cents - others);
        };
        return {
          name,
          ...differenceOf(its.map(readOf), later.map(readOf)),
          own: differenceOf(its.flatMap(ownOf), later.flatMap(ownOf)),
        };
      }),
      lowRegisterDb: lowDifference(
        before.map((i) => takes[i]!),
        after.map((i) => takes[i]!),
      ),
    };
  });
}

/** Takes in which the string is the note that it is after the work. */
function sameNote(
  before: readonly SingleMoment[],
  after: readonly SingleMoment[],
): [SingleMoment[], SingleMoment[]] {
  const note = after[0]?.note;
  const isIt = (one: SingleMoment) => note === undefined || one.note === note;
  return [before.filter(isIt), after.filter(isIt)];
}

function readOf({ cents, interval95Cents }: SingleMoment): Value {
  return { value: cents, half: interval95Cents && (interval95Cents[1] - interval95Cents[0]) / 2 };
}

/** A value without an interval of its own. */
function unread(value: number | null): Value[] {
  return value === null ? [] : [{ value, half: null }];
}

function momentsIn(moments: readonly SingleMoment[], takes: readonly number[]): SingleMoment[] {
  return moments.filter(({ take }) => takes.includes(take));
}

function meanDays(places: readonly number[], takes: readonly PlacedTake[]): number {
  return places.reduce((sum, i) => sum + takes[i]!.moment.days, 0) / places.length;
}

function differenceOf(before: readonly Value[], after: readonly Value[]): WorkDifference {
  const counts = { beforeCount: before.length, afterCount: after.length };
  const none = { difference: null, interval95: null, basis: null, ...counts };
  if (before.length === 0) return { ...none, lacking: "nothing-before" };
  if (after.length === 0) return { ...none, lacking: "nothing-after" };
  const { difference, interval } = welchDifference(
    after.map(({ value }) => value),
    before.map(({ value }) => value),
  );
  if (difference !== null && interval !== null)
    return { difference, interval95: interval, basis: "welch", ...counts, lacking: null };
  const half = Math.hypot(meanHalf(before) ?? Number.NaN, meanHalf(after) ?? Number.NaN);
  if (difference === null || Number.isNaN(half)) return { ...none, difference, lacking: "no-interval" };
  const interval95 = [difference - half, difference + half] as const;
  return { difference, interval95, basis: "read", ...counts, lacking: null };
}

/** Of the mean of values that are read independently; null where one has no interval. */
function meanHalf(values: readonly Value[]): number | null {
  let squares = 0;
  for (const { half } of values) {
    if (half === null) return null;
    squares += half * half;
  }
  return Math.sqrt(squares) / values.length;
}

/** The low register of takes that can be compared: the same strings heard, the same edge. */
function lowDifference(before: readonly PlacedTake[], after: readonly PlacedTake[]): WorkDifference {
  const soundsOf = ({ strings, settings }: PlacedTake) =>
    JSON.stringify([
      settings.lowEdgeHz,
      strings
        .filter(({ status }) => status === "measured")
        .map(({ name }) => name)
        .sort(),
    ]);
  const sounds = new Set([...before, ...after].map(soundsOf));
  const values = (takes: readonly PlacedTake[]) =>
    takes.flatMap(({ lowRegisterDb }) => unread(lowRegisterDb));
  if (sounds.size > 1 && before.length > 0) {
    const counts = { beforeCount: before.length, afterCount: after.length };
    return { difference: null, interval95: null, basis: null, ...counts, lacking: "other-sounds" };
  }
  return differenceOf(values(before), values(after));
}
