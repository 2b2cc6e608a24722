import type { BuzzProfile } from "./buzzProfile.js";
import { chanceSize } from "./chanceSize.js";
import { movingMean } from "./movingMean.js";
import { type RiseAndFall, risesAndFalls } from "./risesAndFalls.js";
import { stepAt } from "./stepAt.js";
import type { UpperBands } from "./upperBands.js";

/** A stretch in which the upper bands suddenly stand above what they have without buzz. */
export interface FoundStroke {
  readonly onsetSeconds: number;
  readonly endSeconds: number;
  /** How clear the step at its onset is (see `stepAt`). */
  readonly clarity: number;
  /** Its sudden rise over what comes about by chance. */
  readonly timesChance: number;
  /** Mean power above that without buzz from onset to end, band by band. */
  readonly addedPower: readonly number[];
  /** Share of what it adds from its onset on that comes at once, within the length of one frame about its height. */
  readonly atOnceShare: number;
}

/** Strokes are found in means over this long or so many periods of the string, which knocks at irregular moments need ... */
const SMOOTH_SECONDS = 0.02;
const SMOOTH_PERIODS = 5;
/** ... and timed in short ones. */
const FINE_SECONDS = 0.006;
const FLOOR_TIMES_CHANCE = 1.5;
const LEAST_HEIGHT_TIMES_CHANCE = 4.5;
const LEAST_RISE_TIMES_CHANCE = 4;
const LEAST_RISE_DB = 0.8;
/** The step is looked for this far before and after the smoothed rise passes half. */
const BEFORE_SECONDS = 0.04;
const LEAST_BEFORE_SECONDS = 0.012;
const AFTER_SECONDS = 0.045;
const PLATEAU_FROM_SECONDS = 0.01;
const ENDED_SECONDS = 0.016;
const RISE_REACH_SECONDS = 0.02;
const AT_ONCE_REACH_SECONDS = 0.009;
const WHOLE_SECONDS = 0.08;

/**
 * Finds the strokes: rises of the weighted upper bands above their level without buzz that are sudden, high enough and parted by a dip.
 *
 * The onset is where the amplitude steps up (`stepAt`), which for a rise of 5 to 15 ms is the middle of the rise.
 *
 * @param stringHz - pitch of the string: how close knocks of the bridge follow each other
 * @returns in order of time; what sounds like a knock or a note is among them
 */
export function findStrokes(upper: UpperBands, profile: BuzzProfile, stringHz: number): FoundStroke[] {
  const { course, levelDb, baselineDb, riseDb, isKnown, areQuiet } = upper;
  const { hopSeconds, firstSeconds, count, isHeard } = course;
  const frames = (seconds: number) => Math.max(1, Math.round(seconds / hopSeconds));
  const { added, timed, rise } = weighted();
  const smooth = movingMean(added, frames(Math.max(SMOOTH_SECONDS, SMOOTH_PERIODS / stringHz)));
  const fine = movingMean(timed, frames(FINE_SECONDS));
  const chance = chanceSize(smooth, isKnown, areQuiet);
  const riseChance = chanceSize(rise, isKnown, areQuiet);
  const floor = FLOOR_TIMES_CHANCE * chance;
  const heightDb = smooth.map((value) => 10 * Math.log10(Math.max(0, value) + floor));
  const found = risesAndFalls(heightDb, 10 * Math.log10(floor)).flatMap((one) => strokeOf(one) ?? []);
  return found.map((one, i) => {
    const endSeconds = Math.min(one.endSeconds, found[i + 1]?.onsetSeconds ?? one.endSeconds);
    return { ...one, endSeconds, addedPower: addedPower(one.onsetSeconds, endSeconds) };
  });

  /** The bands together: power above that without buzz, weighted to be found and to be timed, and how it rises. */
  function weighted() {
    const sums = {
      added: new Float64Array(count),
      timed: new Float64Array(count),
      rise: new Float64Array(count),
    };
    for (const [b, level] of levelDb.entries()) {
      for (let m = 0; m < count; m++) {
        if (isHeard[m] === 0) continue;
        const ratio = 10 ** ((level[m] - baselineDb[b][m]) / 10) - 1;
        sums.added[m] += profile.weights[b] * ratio;
        sums.timed[m] += profile.timing[b] * ratio;
        sums.rise[m] += profile.weights[b] * riseDb[b][m];
      }
    }
    return sums;
  }

  function strokeOf({ valley, peak, end }: RiseAndFall): FoundStroke | null {
    if (smooth[peak] < LEAST_HEIGHT_TIMES_CHANCE * chance) return null;
    const amplitude = (value: number) => Math.sqrt(Math.max(0, value));
    const half = ((amplitude(smooth[valley]) + amplitude(smooth[peak])) / 2) ** 2;
    let middle = valley;
    while (middle < peak && smooth[middle] < half) middle++;
    const earliest = Math.min(valley, middle - frames(LEAST_BEFORE_SECONDS));
    const from = Math.max(0, earliest, middle - frames(BEFORE_SECONDS));
    const { at, clarity } = stepAt(fine, from, Math.min(end, middle + frames(AFTER_SECONDS)));
    let largest = 0;
    const reach = frames(RISE_REACH_SECONDS);
    for (let m = Math.max(0, Math.round(at) - reach); m < Math.min(count, at + reach); m++) {
      largest = Math.max(largest, rise[m]);
    }
    if (largest < Math.max(LEAST_RISE_DB, LEAST_RISE_TIMES_CHANCE * riseChance)) return null;
    return {
      onsetSeconds: firstSeconds + at * hopSeconds,
      endSeconds: firstSeconds + endOf(Math.ceil(at), peak) * hopSeconds,
      clarity,
      timesChance: largest / riseChance,
      addedPower: [],
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

  function addedPower(onsetSeconds: number, endSeconds: number): number[] {
    const first = Math.max(0, Math.round((onsetSeconds - firstSeconds) / hopSeconds));
    const last = Math.min(count, Math.max(first + 1, Math.round((endSeconds - firstSeconds) / hopSeconds)));
    return levelDb.map((level, b) => {
      let sum = 0;
      for (let m = first; m < last; m++) sum += 10 ** (level[m] / 10) - 10 ** (baselineDb[b][m] / 10);
      return sum / (last - first);
    });
  }
}
