import { chanceSize } from "./chanceSize.js";
import { type RiseAndFall, risesAndFalls } from "./risesAndFalls.js";
import type { UpperBands } from "./upperBands.js";

/** A stretch cut out of a course. */
export interface CutStroke {
  readonly onsetSeconds: number;
  /** 95 of 100 onsets like it lie this near, the roughness of the buzz left out. */
  readonly reachSeconds: number;
  readonly endSeconds: number;
  /** Share of what it adds from its onset on that comes at once, within the length of one frame about its height. */
  readonly atOnceShare: number;
}

/** The bands together, above what they have without buzz. */
export interface StrokeCourses {
  /** Smoothed: where it rises and falls is cut. */
  readonly smooth: Float64Array;
  /** Smoothed little. */
  readonly fine: Float64Array;
  /** How suddenly it rises (see `riseCourse`). */
  readonly rise: Float64Array;
}

/** Finds the onset between two frames, and how far it may be off; null where nothing rises. */
export type OnsetFinder = (
  from: number,
  to: number,
) => { readonly at: number; readonly reach: number } | null;

const FLOOR_TIMES_CHANCE = 1.5;
const LEAST_HEIGHT_TIMES_CHANCE = 4.5;
const LEAST_RISE_TIMES_CHANCE = 4;
const LEAST_RISE_DB = 0.8;
/** The onset is looked for this far before and after the smoothed rise passes half. */
const BEFORE_SECONDS = 0.04;
const LEAST_BEFORE_SECONDS = 0.012;
const AFTER_SECONDS = 0.045;
const PLATEAU_FROM_SECONDS = 0.01;
const ENDED_SECONDS = 0.016;
const RISE_REACH_SECONDS = 0.02;
const AT_ONCE_REACH_SECONDS = 0.009;
const WHOLE_SECONDS = 0.08;

/** Cuts a course into strokes: what rises suddenly, high enough, and is parted by a dip. In order of time. */
export function cutStrokes(upper: UpperBands, courses: StrokeCourses, findOnset: OnsetFinder): CutStroke[] {
  const { hopSeconds, firstSeconds, count, isHeard } = upper.course;
  const { smooth, fine, rise } = courses;
  const frames = (seconds: number) => Math.max(1, Math.round(seconds / hopSeconds));
  const chance = chanceSize(smooth, upper.isKnown, upper.areQuiet);
  const riseChance = chanceSize(rise, upper.isKnown, upper.areQuiet);
  const floor = FLOOR_TIMES_CHANCE * chance;
  const heightDb = smooth.map((value) => 10 * Math.log10(Math.max(0, value) + floor));
  const cut = risesAndFalls(heightDb, 10 * Math.log10(floor)).flatMap((one) => strokeOf(one) ?? []);
  return cut.sort((a, b) => a.onsetSeconds - b.onsetSeconds);

  function strokeOf({ valley, peak, end }: RiseAndFall): CutStroke | null {
    if (smooth[peak] < LEAST_HEIGHT_TIMES_CHANCE * chance) return null;
    const amplitude = (value: number) => Math.sqrt(Math.max(0, value));
    const half = ((amplitude(smooth[valley]) + amplitude(smooth[peak])) / 2) ** 2;
    let middle = valley;
    while (middle < peak && smooth[middle] < half) middle++;
    const earliest = Math.min(valley, middle - frames(LEAST_BEFORE_SECONDS));
    const from = Math.max(0, earliest, middle - frames(BEFORE_SECONDS));
    const onset = findOnset(from, Math.min(end, middle + frames(AFTER_SECONDS)));
    if (onset === null) return null;
    const { at, reach } = onset;
    let largest = 0;
    const near = frames(RISE_REACH_SECONDS);
    for (let m = Math.max(0, Math.round(at) - near); m < Math.min(count, at + near); m++) {
      largest = Math.max(largest, rise[m]);
    }
    if (largest < Math.max(LEAST_RISE_DB, LEAST_RISE_TIMES_CHANCE * riseChance)) return null;
    return {
      onsetSeconds: firstSeconds + at * hopSeconds,
      reachSeconds: reach * hopSeconds,
      endSeconds: firstSeconds + endOf(Math.ceil(at), peak) * hopSeconds,
      atOnceShare: atOnceShare(Math.round(at)),
    };
  }

  /** Where the amplitude falls below half of what it had at first, and stays there for a moment. */
  function endOf(onset: number, peak: number): number {
    const from = onset + frames(PLATEAU_FROM_SECONDS);
    const to = Math.min(count, onset + frames(AFTER_SECONDS));
    let plateau = 0;
    for (let m = from; m < to; m++) plateau += smooth[m] / Math.max(1, to - from);
    const quarter = (to > from ? plateau : smooth[peak]) / 4;
    let below = 0;
    for (let m = onset + 1; m < count; m++) {
      below = smooth[m] < quarter || isHeard[m] === 0 ? below + 1 : 0;
      if (below >= frames(ENDED_SECONDS)) return m - below + 1;
    }
    return count;
  }

  /** A knock is over within the length of one frame, but for the room. */
  function atOnceShare(onset: number): number {
    const until = Math.min(count, onset + frames(WHOLE_SECONDS));
    let top = onset;
    for (let m = onset; m < until; m++) if (fine[m] > fine[top]) top = m;
    const reach = frames(AT_ONCE_REACH_SECONDS);
    let whole = 0;
    let near = 0;
    for (let m = Math.max(0, onset - reach); m < until; m++) {
      const value = Math.max(0, fine[m]);
      whole += value;
      if (Math.abs(m - top) <= reach) near += value;
    }
    return near / Math.max(whole, 1e-12);
  }
}
