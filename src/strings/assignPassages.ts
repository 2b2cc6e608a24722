import type { StringTarget } from "../instrument/Instrument.js";
import { cents } from "../units/cents.js";
import { isOneNote } from "../units/isOneNote.js";
import { equalGroups } from "./equalGroups.js";

/** A passage by its pitch and place. */
interface PlacedPassage {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly frequencyHz: number;
}

/** Which passages belong to which string. */
export interface Assignment<P> {
  /** One list a target, in the order of the targets; empty for a string that was not heard. */
  readonly perTarget: readonly (readonly P[])[];
  /** Passages that no string explains. */
  readonly unmatched: readonly P[];
  /** Groups of equal strings (indices of targets) whose passages don't come out one a string. */
  readonly unclearGroups: readonly (readonly number[])[];
}

/** A string in use stays this close to its target. */
const NEAR_CENTS = 60;
/** A newly strung one, or one with its capo on, may be this far off. */
const FAR_CENTS = 300;
/** A break shorter than this between measured stretches (0.35 s of it is trimmed ends), on the same pitch, is a hiccup of the bowing and no change of string. */
const HICCUP_SECONDS = 0.9;
const HICCUP_CENTS = 3;
const SAME_SOUND_SECONDS = 0.01;

/**
 * Works out which string each passage is.
 *
 * A passage goes to the target within 60 cents of it. Passages left over go to strings not heard so far, nearest first,
 * up to 300 cents away. Equal strings are taken in the order of the targets, or in that of `order`.
 *
 * @param passages - in order of time
 * @param order - names of strings in the order in which they were recorded; decides between equal strings only
 */
export function assignPassages<P extends PlacedPassage>(
  passages: readonly P[],
  targets: readonly StringTarget[],
  order: readonly string[] = [],
): Assignment<P> {
  const perTarget: P[][] = targets.map(() => []);
  const unclearGroups: number[][] = [];
  const groups = equalGroups(targets, order);
  const perGroup: P[][] = groups.map(() => []);
  let left: P[] = [];
  for (const passage of passages) {
    const group = nearestIndex(groups, (members) => distance(passage, members, targets));
    if (group !== null && distance(passage, groups[group], targets) <= NEAR_CENTS)
      perGroup[group].push(passage);
    else left.push(passage);
  }
  for (const [g, members] of groups.entries()) {
    const runs = bowingRuns(perGroup[g]);
    for (const [r, run] of runs.entries()) perTarget[members[r % members.length]].push(...run);
    if (members.length > 1 && runs.length > 0 && runs.length !== members.length) unclearGroups.push(members);
  }
  for (;;) {
    const best = closestFarOff(left, targets, perTarget);
    if (best === null) break;
    // The same far-off string may have been bowed more than once.
    const same = left.filter((passage) => isOneNote(passage.frequencyHz, best.passage.frequencyHz));
    const group = groups.find((members) => members.includes(best.target)) ?? [best.target];
    const free = group.filter((t) => perTarget[t].length === 0);
    for (const [r, run] of bowingRuns(same).entries()) perTarget[free[r % free.length]].push(...run);
    if (group.length > 1) unclearGroups.push(group);
    left = left.filter((passage) => !same.includes(passage));
  }
  return { perTarget, unmatched: left, unclearGroups };
}

function distance(
  passage: PlacedPassage,
  members: readonly number[],
  targets: readonly StringTarget[],
): number {
  return Math.min(...members.map((t) => Math.abs(cents(passage.frequencyHz, targets[t].targetHz))));
}

function nearestIndex<T>(items: readonly T[], distanceOf: (item: T) => number): number | null {
  let best: number | null = null;
  let shortest = Number.POSITIVE_INFINITY;
  for (const [i, item] of items.entries()) {
    const length = distanceOf(item);
    if (length >= shortest) continue;
    shortest = length;
    best = i;
  }
  return best;
}

function bowingRuns<P extends PlacedPassage>(passages: readonly P[]): P[][] {
  const runs: P[][] = [];
  for (const passage of passages) {
    const before = runs.at(-1)?.at(-1);
    const gapSeconds =
      before === undefined ? Number.POSITIVE_INFINITY : passage.startSeconds - before.endSeconds;
    // A long sound is cut into parts without a gap: however far it drifts, that is one string.
    const hiccup =
      before !== undefined &&
      (gapSeconds < SAME_SOUND_SECONDS ||
        (gapSeconds < HICCUP_SECONDS &&
          Math.abs(cents(passage.frequencyHz, before.frequencyHz)) < HICCUP_CENTS));
    if (hiccup) runs[runs.length - 1].push(passage);
    else runs.push([passage]);
  }
  return runs;
}

function closestFarOff<P extends PlacedPassage>(
  left: readonly P[],
  targets: readonly StringTarget[],
  perTarget: readonly (readonly P[])[],
): { passage: P; target: number } | null {
  let best: { passage: P; target: number } | null = null;
  let shortest = FAR_CENTS;
  for (const passage of left) {
    for (const [target, { targetHz }] of targets.entries()) {
      const away = Math.abs(cents(passage.frequencyHz, targetHz));
      if (perTarget[target].length > 0 || away > shortest) continue;
      shortest = away;
      best = { passage, target };
    }
  }
  return best;
}
