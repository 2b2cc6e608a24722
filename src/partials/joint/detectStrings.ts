import type { AnalysisSegment } from "../AnalysisSegment.js";
import { type Explained, explainedBy } from "./explainedBy.js";
import { type JointState, type JointString, jointState } from "./JointState.js";
import { locateString } from "./locateString.js";
import { neighbours } from "./neighbours.js";
import { settleString } from "./settleString.js";

/** A string that was found to sound. */
export interface DetectedString {
  /** Index into the targets. */
  readonly index: number;
  readonly frequencyHz: number;
}

/** Strings are looked for this far from their targets. */
const SPAN_CENTS = 60;
const FINE_CENTS = 6;
const WIDTH_HZ = 9;
/** Partials looked at, and the strongest of them that decide. */
const HIGHEST_NUMBER = 20;
const DECIDING = 6;
/** A string explains this share of what the others leave at its partials; wheel sidebands and noise, a tenth of it. */
const LEAST_SHARE = 0.55;
/** Its partials hold this share of all power, and of what stands at their places before the others are taken out. */
const LEAST_POWER = 10 ** -3.3;
const LEAST_RELATIVE = 10 ** -2.5;
/** With two partials to go by or more, less than this between every second or third is a string an octave or twelfth up. */
const LEAST_BETWEEN = 2;
const LEAST_BETWEEN_SHARE = 10 ** -3;

/**
 * Finds out which strings of an instrument sound in a passage.
 *
 * From the lowest up, each string is looked for in what the strings accepted so far leave. Only partials count that no
 * undecided string can reach: a lone G2 has no partial that is G3's alone, but with the course and the gain of G2, known
 * from its odd partials, taken out of the even ones, nothing that holds together is left there.
 *
 * @param targetsHz - in any order; a string is found within 60 cents of its target
 * @returns in the order of the targets
 */
export function detectStrings(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  targetsHz: readonly number[],
): DetectedString[] {
  const all = jointState(segment, startSeconds, endSeconds, targetsHz);
  const totalPower = meanPower(segment, startSeconds, endSeconds);
  let pool: readonly JointString[] = all.strings;
  const accepted: JointString[] = [];
  for (const string of [...all.strings].sort((a, b) => a.baseHz - b.baseHz)) {
    const state = { ...all, strings: pool };
    locateString(state, string, SPAN_CENTS, SPAN_CENTS);
    locateString(state, string, FINE_CENTS, SPAN_CENTS);
    const followed = settleString(state, string, SPAN_CENTS);
    if (followed && sounds(state, string, totalPower)) {
      string.located = true;
      accepted.push(string);
      for (const one of accepted) settleString(state, one, SPAN_CENTS);
    } else {
      pool = pool.filter((one) => one !== string);
    }
  }
  return all.strings.flatMap((string, index) =>
    accepted.includes(string) ? [{ index, frequencyHz: string.baseHz }] : [],
  );
}

function sounds(state: JointState, string: JointString, totalPower: number): boolean {
  const rows: (Explained & { readonly number: number })[] = [];
  const spanShare = 2 ** (SPAN_CENTS / 1200) - 1;
  for (let number = 1; number <= Math.min(HIGHEST_NUMBER, string.partialCount); number++) {
    const partialHz = number * string.baseHz;
    const near = neighbours(state, string, number, WIDTH_HZ + partialHz * spanShare).filter(
      (one) => !one.string.located || Math.abs(one.number * one.string.baseHz - partialHz) < WIDTH_HZ,
    );
    if (near.every((one) => one.string.located)) {
      rows.push({ number, ...explainedBy(state, string, number, near) });
    }
  }
  const own = rows.filter((row) => row.isOwn);
  if (isHigherSeries(own)) return false;
  const deciding = (own.length >= 2 ? own : rows).sort((a, b) => b.power - a.power).slice(0, DECIDING);
  const mean = (of: (row: Explained) => number) =>
    deciding.reduce((sum, row) => sum + of(row), 0) / Math.max(1, deciding.length);
  return (
    mean((row) => row.share) > LEAST_SHARE &&
    mean((row) => row.relative) > LEAST_RELATIVE &&
    mean((row) => row.power) * deciding.length > LEAST_POWER * totalPower
  );
}

/** True where a string's own partials sound only at every second or third number: another string, an octave or twelfth up. */
function isHigherSeries(own: readonly { readonly number: number; readonly power: number }[]): boolean {
  const total = own.reduce((sum, { power }) => sum + power, 0);
  return [2, 3].some((factor) => {
    const between = own.filter(({ number }) => number % factor !== 0);
    if (between.length < LEAST_BETWEEN || between.length === own.length) return false;
    return between.reduce((sum, { power }) => sum + power, 0) < LEAST_BETWEEN_SHARE * total;
  });
}

/** Mean power of the passage, 1 for a full-scale sine. */
function meanPower(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  start: number,
  end: number,
): number {
  const from = Math.max(0, Math.round((start - firstSeconds) * sampleRateHz));
  const to = Math.min(samples.length, Math.round((end - firstSeconds) * sampleRateHz));
  let sum = 0;
  for (let i = from; i < to; i++) sum += 2 * samples[i] * samples[i];
  return sum / Math.max(1, to - from);
}
