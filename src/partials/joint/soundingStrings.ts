import { isOneNote } from "../../units/isOneNote.js";
import { type Explained, explainedBy } from "./explainedBy.js";
import { explainedShare } from "./explainedShare.js";
import { findAlone } from "./findAlone.js";
import { findEqual } from "./findEqual.js";
import { type JointState, type JointString, meanHz } from "./JointState.js";
import { LEAST_CYCLES } from "./leastCycles.js";
import { NEIGHBOUR_HZ, neighbours } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";
import { settleString } from "./settleString.js";

/** Strings are looked for this far from their targets. */
const SPAN_CENTS = 60;
/** Partials looked at, and the strongest of them that decide. */
const HIGHEST_NUMBER = 20;
const DECIDING = 6;
/** A string explains this share of what the others leave at its partials; wheel sidebands and noise, a tenth of it. */
const LEAST_SHARE = 0.55;
/** Its partials hold this share of all power, and of what stands at their places before the others are taken out. */
const LEAST_POWER = 10 ** -3.3;
const LEAST_RELATIVE = 10 ** -2.5;
/** A string that explains this much leaves nothing for a second one with its target that would count (see below). */
const ALONE_SHARE = 0.985;
/** ... and one that explains this much can only be joined by a weaker one. */
const STRONG_SHARE = 0.9;
/** Of strings with one target the weakest has this share of the power of the strongest (18 dB down); our policy. */
const LEAST_OF_EQUAL = 10 ** -1.8;
/** With two partials to go by or more, less than this between every second or third is a string an octave or twelfth up. */
const LEAST_BETWEEN = 2;
const LEAST_BETWEEN_SHARE = 10 ** -3;

/**
 * Finds out which of the strings sound, and leaves them located and followed.
 *
 * From the lowest up, each string is looked for in what the strings accepted so far leave. Only partials count that no
 * undecided string can reach: a lone G2 has no partial that is G3's alone, but with the course and the gain of G2, known
 * from its odd partials, taken out of the even ones, nothing that holds together is left there.
 *
 * Strings with one target are decided together: first whether all of them sound, each of them explaining what the others
 * leave, then one fewer. Where one sounds, a second finds nothing that holds together; where two do, neither alone does.
 */
export function soundingStrings(state: JointState): JointString[] {
  const accepted: JointString[] = [];
  const undecided = [...state.strings].sort((a, b) => a.baseHz - b.baseHz);
  while (undecided.length > 0) {
    const lowestHz = undecided[0].baseHz;
    const equal = undecided.filter(({ baseHz }) => isOneNote(baseHz, lowestHz));
    undecided.splice(0, equal.length);
    const sounding = soundingOf(equal, { ...state, strings: [...accepted, ...equal, ...undecided] });
    accepted.push(...sounding);
    if (sounding.length === 0) continue;
    const known = { ...state, strings: [...accepted, ...undecided] };
    for (const one of accepted) {
      // A course of partials of its own stays right whatever else is found; the rest is settled once all are.
      if (one.equals.length === 0 && !one.ownCourse) settleString(known, one, SPAN_CENTS);
    }
  }
  return accepted;
}

/** Which of the strings with one target sound: as many of them as all explain what the others leave. */
function soundingOf(equal: readonly JointString[], state: JointState): readonly JointString[] {
  const startsHz = equal.map(({ baseHz }) => baseHz);
  const [first] = equal;
  const alone = { ...state, strings: state.strings.filter((one) => one === first || !equal.includes(one)) };
  const found = findAlone(alone, first, SPAN_CENTS);
  if (found === "silent") return [];
  const isAlone = found === "followed" && sounds(alone, first);
  if (isAlone && equal.length === 1) return [first];
  const share = isAlone ? explainedShare(alone, first) : 0;
  if (share > ALONE_SHARE) return [first];
  const kept = { ...first };
  for (let count = equal.length; count > 1; count--) {
    const tried = equal.slice(0, count);
    const among = {
      ...state,
      strings: state.strings.filter((one) => !equal.includes(one) || tried.includes(one)),
    };
    if (findEqual(among, tried, startsHz, SPAN_CENTS, share > STRONG_SHARE) === null) continue;
    if (areApart(among, tried) && tried.every((one) => sounds(among, one))) return tried;
  }
  Object.assign(first, kept);
  return isAlone ? [first] : [];
}

/**
 * True where strings with one target can be told apart, and none is so weak that it could be the other's noise: following
 * both at once, a second one explains some of what a lone string's course leaves, 20 dB down or more.
 */
function areApart(state: JointState, strings: readonly JointString[]): boolean {
  const seconds = (state.grid.count - 1) * state.grid.hopSeconds;
  const powers = strings.map((string) => {
    const checked = Math.min(HIGHEST_NUMBER, string.partialCount);
    return Array.from({ length: checked }, (_, n) => {
      const near = neighbours(state, string, n + 1, NEIGHBOUR_HZ);
      return separatePartial(state, string, n + 1, near, true).power;
    }).reduce((sum, power) => sum + power, 0);
  });
  if (Math.min(...powers) < LEAST_OF_EQUAL * Math.max(...powers)) return false;
  return strings.every((a, i) =>
    strings.slice(i + 1).every((b) => {
      const apartHz = Math.abs(meanHz(state, a) - meanHz(state, b));
      return apartHz * seconds * Math.min(a.partialCount, b.partialCount) >= LEAST_CYCLES;
    }),
  );
}

function sounds(state: JointState, string: JointString): boolean {
  const rows: (Explained & { readonly number: number })[] = [];
  const spanShare = 2 ** (SPAN_CENTS / 1200) - 1;
  for (let number = 1; number <= Math.min(HIGHEST_NUMBER, string.partialCount); number++) {
    const partialHz = number * string.baseHz;
    const near = neighbours(state, string, number, NEIGHBOUR_HZ + partialHz * spanShare).filter(
      (one) => !one.string.located || Math.abs(one.number * one.string.baseHz - partialHz) < NEIGHBOUR_HZ,
    );
    if (near.every((one) => one.string.located)) {
      rows.push({ number, ...explainedBy(state, string, number, near) });
    }
  }
  const own = rows.filter((row) => row.isOwn);
  if (isHigherSeries(own)) return false;
  const strongest = (of: readonly Explained[]) =>
    [...of].sort((a, b) => b.power - a.power).slice(0, DECIDING);
  const deciding = strongest(own.length >= 2 ? own : rows);
  // Its own partials may be high and weak where all lower ones are shared, an octave up: power is that of all.
  const power = strongest(rows).reduce((sum, row) => sum + row.power, 0);
  const mean = (of: (row: Explained) => number) =>
    deciding.reduce((sum, row) => sum + of(row), 0) / Math.max(1, deciding.length);
  return (
    mean((row) => row.share) > LEAST_SHARE &&
    mean((row) => row.relative) > LEAST_RELATIVE &&
    power > LEAST_POWER * state.power
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
