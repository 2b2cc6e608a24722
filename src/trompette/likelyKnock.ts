import { normalCumulative } from "../statistics/normalCumulative.js";
import { LEVELS_DB, levelIndex, type PeriodPeaks } from "./periodPeaks.js";

/** What is known of one stroke, in frames. */
export interface KnockCase {
  /** In units of the usual knock, 0 in silence. */
  readonly course: Float64Array;
  /** Level of the highest of the period that begins at each frame. */
  readonly peaks: Uint8Array;
  readonly period: number;
  readonly chances: PeriodPeaks;
  /** How well the usual knock is known, decibels (a standard deviation). */
  readonly spreadDb: number;
  /** Frames that count, and those of them at which the first knock may lie. */
  readonly from: number;
  readonly to: number;
  readonly earliest: number;
  readonly latest: number;
  /** Frames before the first loud knock in which weaker ones may come. */
  readonly attack: number;
  /** Logarithm of the chance beforehand of each frame. */
  readonly logPrior: (frame: number) => number;
}

/** A knock counts from half the amplitude of the usual one; the frames' own overlap adds half a decibel to a lone knock's power. */
export const LOUD_ENOUGH_DB = 10 * Math.log10(0.28);
/** What one knock may differ from what the course makes of it, decibels (a standard deviation), from takes with known knocks. */
const KNOCK_DB = 1.5;
/** Share of periods with a weaker knock in an attack. */
const WEAK_SHARE = 0.5;
/** Neighbouring periods are not quite independent. */
const INDEPENDENT_SHARE = 0.65;
/** Of a knock the height comes so many frames after its begin. */
const KNOCK_FRAMES = 5;
const LEAST_CHANCE = 3e-4;
/** The buzz of the stroke before may go on into what is looked at: the chance beforehand of each period to be its last, against none. */
const RINGING_CHANCE = 0.1;
/** Silence of two periods, at least, parts it from the first knock. */
const LEAST_SILENT_PERIODS = 2;

/**
 * Where the first knock lies that is loud enough. Each moment is weighed by: how likely the periods before it are as silence (shortly
 * before it also as knocks too weak to count), the periods after it as buzz, and the knock at it as a loud one. Periods, not frames, are
 * what is independent: a knock that is left out leaves one period empty.
 *
 * Where the stroke before ends may not be known; so the periods before may begin with its buzz, and end in silence, too (all places of that
 * end together, each by its chance).
 *
 * @returns logarithm of the chance of each frame from `earliest` to before `latest`, in any unit; one at least
 */
export function likelyKnock(known: KnockCase): number[] {
  const { course, peaks, period, chances, from, to, earliest, latest } = known;
  const spreadDb = Math.hypot(KNOCK_DB, known.spreadDb);
  const loud = (levelDb: number) => normalCumulative((levelDb - LOUD_ENOUGH_DB) / spreadDb);
  const weak = LEVELS_DB.map((levelDb, j) => (j === 0 ? 0 : 1 - loud(levelDb)));
  const weakTotal = weak.reduce((sum, value) => sum + value, 0);
  const silence = chances.silence.map(Math.log);
  const attack = chances.silence.map((chance, j) =>
    Math.log((1 - WEAK_SHARE) * chance + (WEAK_SHARE * weak[j]) / weakTotal),
  );
  const buzz = chances.buzz.map(Math.log);
  const attackPeriods = Math.max(1, Math.round(known.attack / period));
  return Array.from({ length: Math.max(1, latest - earliest) }, (_, i) => {
    const at = earliest + i;
    const height = highest(at, Math.min(course.length, at + KNOCK_FRAMES));
    const knock = Math.log(loud(10 * Math.log10(Math.max(1e-6, height))) + LEAST_CHANCE);
    return before(at) + INDEPENDENT_SHARE * after(at) + knock + known.logPrior(at);
  });

  function before(at: number): number {
    const silences: number[] = [];
    const buzzes: number[] = [];
    for (let last = at; last > from; last -= period) {
      const first = Math.max(from, last - period);
      const level = last - first === period ? peaks[first] : levelIndex(highest(first, last));
      const share = (INDEPENDENT_SHARE * (last - first)) / period;
      silences.push(share * (silences.length < attackPeriods ? attack : silence)[level]);
      buzzes.push(share * buzz[level]);
    }
    // From the earliest on: buzz up to some period, silence from there.
    const silent = silences.reduce((sum, value) => sum + value, 0);
    let now = silent;
    const ways = [silent];
    for (let n = silences.length - 1; n >= LEAST_SILENT_PERIODS; n--) {
      now += buzzes[n] - silences[n];
      ways.push(now + Math.log(RINGING_CHANCE));
    }
    const top = Math.max(...ways);
    return top + Math.log(ways.reduce((sum, way) => sum + Math.exp(way - top), 0));
  }

  function after(at: number): number {
    let sum = 0;
    for (let first = at; first < to; first += period) {
      const last = Math.min(to, first + period);
      const level = last - first === period ? peaks[first] : levelIndex(highest(first, last));
      sum += ((last - first) / period) * buzz[level];
    }
    return sum;
  }

  function highest(first: number, last: number): number {
    let value = Number.NEGATIVE_INFINITY;
    for (let k = first; k < last; k++) value = Math.max(value, course[k]);
    return value;
  }
}
