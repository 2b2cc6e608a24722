import { median } from "../signal/median.js";

/** Pitch of one string in one take. `row` is the string, and another one where it was set to another note. */
export interface CoursePoint {
  readonly take: number;
  readonly row: string;
  readonly cents: number;
}

const ROUNDS = 30;
const SETTLED_CENTS = 1e-6;
/** A string that strays so much more than most goes its own way. */
const STRAYS = 2;
/** And by more than rounding. */
const LEAST_STRAY_CENTS = 1e-3;

/**
 * What strings have in common, take by take: cents of a string = its own level + what is common in this take + the rest, by medians in
 * turn (median polish, Tukey 1977). One that some takes lack does no harm. Strings that go their own way (retuned, slipping) have no say, not even the
 * little that they have in a median, as long as enough others were heard in each take.
 *
 * @param leastStrings - to ask of a take
 * @returns one value a take, the first that has one being 0; null where fewer strings were heard
 */
export function commonCourse(
  points: readonly CoursePoint[],
  takeCount: number,
  leastStrings: number,
): (number | null)[] {
  const all = polished(points, takeCount, leastStrings);
  const steady = withoutStrays(all.rest);
  if (steady.length === all.rest.length) return all.common;
  const again = polished(steady, takeCount, leastStrings).common;
  return all.common.every((value, take) => (value === null) === (again[take] === null)) ? again : all.common;
}

interface RestPoint extends CoursePoint {
  /** What level and common part leave. */
  readonly rest: number;
}

function polished(
  points: readonly CoursePoint[],
  takeCount: number,
  leastStrings: number,
): { readonly common: (number | null)[]; readonly rest: readonly RestPoint[] } {
  const byTake: CoursePoint[][] = Array.from({ length: takeCount }, () => []);
  for (const point of points) byTake[point.take]!.push(point);
  const isUsed = byTake.map((its) => its.length >= leastStrings);
  const used = points.filter(({ take }) => isUsed[take]);
  const byRow = inRows(used);
  const common = new Float64Array(takeCount);
  const levels = new Map<string, number>();
  for (let round = 0; round < ROUNDS; round++) {
    for (const [row, its] of byRow)
      levels.set(row, median(its.map(({ cents, take }) => cents - common[take]!)));
    let moved = 0;
    for (const [take, its] of byTake.entries()) {
      if (!isUsed[take]) continue;
      const next = median(its.map(({ cents, row }) => cents - levels.get(row)!));
      moved = Math.max(moved, Math.abs(next - common[take]!));
      common[take] = next;
    }
    if (moved < SETTLED_CENTS) break;
  }
  const first = isUsed.indexOf(true);
  return {
    common: isUsed.map((is, take) => (is ? common[take]! - common[first]! : null)),
    rest: used.map((point) => ({
      ...point,
      rest: point.cents - levels.get(point.row)! - common[point.take]!,
    })),
  };
}

function withoutStrays(points: readonly RestPoint[]): readonly RestPoint[] {
  const strays = new Map<string, number>();
  for (const [row, its] of inRows(points))
    strays.set(row, Math.sqrt(its.reduce((sum, { rest }) => sum + rest * rest, 0) / its.length));
  if (strays.size === 0) return points;
  const usual = median([...strays.values()]);
  return points.filter(({ row }) => strays.get(row)! <= Math.max(STRAYS * usual, LEAST_STRAY_CENTS));
}

function inRows<Point extends CoursePoint>(points: readonly Point[]): Map<string, Point[]> {
  const rows = new Map<string, Point[]>();
  for (const point of points) {
    const row = rows.get(point.row);
    if (row === undefined) rows.set(point.row, [point]);
    else row.push(point);
  }
  return rows;
}
