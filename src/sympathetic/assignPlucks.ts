import type { StringTarget } from "../instrument/Instrument.js";
import { equalGroups } from "../strings/equalGroups.js";
import { cents } from "../units/cents.js";
import { isOneNote } from "../units/isOneNote.js";

/** A pluck by its moment and pitch. */
interface PlacedPluck {
  readonly onsetSeconds: number;
  readonly frequencyHz: number;
  readonly deviationCents: number;
}

/** Which plucks belong to which string. */
export interface PluckAssignment<P> {
  /** One list a target, in the order of the targets; empty for a string that was not heard. */
  readonly perTarget: readonly (readonly P[])[];
  /** Plucks that no string explains. */
  readonly unmatched: readonly P[];
  /** Groups of equal strings (indices of targets) that were told apart. */
  readonly equal: readonly {
    readonly members: readonly number[];
    readonly by: "pitch" | "order" | "guess";
  }[];
}

/** A string in use stays this close to its target. */
const NEAR_CENTS = 60;
/** A newly strung one may be this far off. */
const FAR_CENTS = 300;
/** Strings of one note count as two by their pitch from here on, and where that is so many times the uncertainty. */
const APART_CENTS = 1;
const APART_DEVIATIONS = 4;

/**
 * Works out which string each pluck is, as `assignPassages` does for bowed ones: the target within 60 cents, or else a string not
 * heard so far, up to 300 cents away.
 *
 * Equal strings are told apart by pitch where their plucks fall into as many groups as there are strings, taken in the order in
 * which they were first plucked; else by order alone, as many plucks for each.
 *
 * @param plucks - in order of time
 * @param order - names of strings in the order in which they were plucked; decides between equal strings only
 */
export function assignPlucks<P extends PlacedPluck>(
  plucks: readonly P[],
  targets: readonly StringTarget[],
  order: readonly string[] = [],
): PluckAssignment<P> {
  const groups = equalGroups(targets, order);
  const perGroup: P[][] = groups.map(() => []);
  let left: P[] = [];
  const away = (pluck: P, members: readonly number[]) =>
    Math.min(...members.map((t) => Math.abs(cents(pluck.frequencyHz, targets[t].targetHz))));
  for (const pluck of plucks) {
    const distances = groups.map((members) => away(pluck, members));
    const nearest = distances.indexOf(Math.min(...distances));
    if (nearest >= 0 && distances[nearest] <= NEAR_CENTS) perGroup[nearest].push(pluck);
    else left.push(pluck);
  }
  for (;;) {
    let best: { pluck: P; group: number } | null = null;
    let shortest = FAR_CENTS;
    for (const pluck of left) {
      for (const [g, members] of groups.entries()) {
        const distance = away(pluck, members);
        if (perGroup[g].length > 0 || distance > shortest) continue;
        shortest = distance;
        best = { pluck, group: g };
      }
    }
    if (best === null) break;
    const { pluck, group } = best;
    const same = left.filter((one) => isOneNote(one.frequencyHz, pluck.frequencyHz));
    perGroup[group].push(...same);
    left = left.filter((one) => !same.includes(one));
  }
  const perTarget: (readonly P[])[] = targets.map(() => []);
  const equal: { members: readonly number[]; by: "pitch" | "order" | "guess" }[] = [];
  for (const [g, members] of groups.entries()) {
    const { shares, by } = sharedOut(perGroup[g], members.length);
    for (const [k, share] of shares.entries()) perTarget[members[k]] = share;
    if (members.length > 1 && perGroup[g].length > 0) equal.push({ members, by });
  }
  return { perTarget, unmatched: left, equal };
}

/** Plucks of strings of one note, by string. */
function sharedOut<P extends PlacedPluck>(
  plucks: readonly P[],
  strings: number,
): { shares: readonly (readonly P[])[]; by: "pitch" | "order" | "guess" } {
  if (strings === 1) return { shares: [plucks], by: "order" };
  if (plucks.length === strings) return { shares: plucks.map((pluck) => [pluck]), by: "order" };
  const byPitch = [...plucks].sort((a, b) => a.frequencyHz - b.frequencyHz);
  const clusters: P[][] = [];
  for (const pluck of byPitch) {
    const before = clusters.at(-1)?.at(-1);
    const isNew =
      before === undefined ||
      cents(pluck.frequencyHz, before.frequencyHz) >
        Math.max(APART_CENTS, APART_DEVIATIONS * Math.hypot(pluck.deviationCents, before.deviationCents));
    if (isNew) clusters.push([pluck]);
    else clusters[clusters.length - 1].push(pluck);
  }
  if (clusters.length === strings) {
    const inTime = clusters.map((cluster) => cluster.sort((a, b) => a.onsetSeconds - b.onsetSeconds));
    return { shares: inTime.sort((a, b) => a[0].onsetSeconds - b[0].onsetSeconds), by: "pitch" };
  }
  const each = Math.max(1, Math.ceil(plucks.length / strings));
  const shares = Array.from({ length: strings }, (_, k) => plucks.slice(k * each, (k + 1) * each));
  return { shares, by: "guess" };
}
