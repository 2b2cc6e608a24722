import type { LoggedTake } from "./logLineSchema.js";
import { type Moment, parseMoment } from "./parseMoment.js";

/** A take with its place in time and in the work done on the instrument. */
export interface PlacedTake extends LoggedTake {
  readonly moment: Moment;
  /** How many times work had been done; takes with one number belong together. */
  readonly stretch: number;
}

/**
 * Takes of one instrument in order of time, and parted where work was done. Of takes at one moment those after work come last: it is they
 * that tell of it. Takes of one day with one and the same note tell of the same work.
 */
export function takesInOrder(takes: readonly LoggedTake[]): PlacedTake[] {
  const timed = takes
    .map((take) => ({ take, moment: parseMoment(take.takenAt)!, text: JSON.stringify(take) }))
    .sort(
      (a, b) =>
        a.moment.days - b.moment.days ||
        Number(a.take.work !== null) - Number(b.take.work !== null) ||
        (a.text < b.text ? -1 : 1),
    );
  let stretch = 0;
  let told: string | null = null;
  return timed.map(({ take, moment }) => {
    if (take.work !== null) {
      const work = `${dayOf(take)} ${take.work}`;
      if (work !== told) stretch++;
      told = work;
    }
    return { ...take, moment, stretch };
  });
}

/**
 * Days on which it can't be told which take came before some work and which after: a take without a time of day, or two at one
 * moment, of which one tells of work and another does not.
 */
export function doubtfulDays(takes: readonly PlacedTake[]): string[] {
  const days = new Map<string, PlacedTake[]>();
  for (const take of takes) append(days, dayOf(take), take);
  return [...days].flatMap(([day, ofDay]) => {
    const isMixed = new Set(ofDay.map(({ work }) => work)).size > 1;
    const hasOrder =
      ofDay.every(({ moment }) => moment.hasTime) &&
      new Set(ofDay.map(({ moment }) => moment.days)).size === ofDay.length;
    return isMixed && !hasOrder ? [day] : [];
  });
}

function dayOf({ takenAt }: LoggedTake): string {
  return takenAt.slice(0, 10);
}

function append<T>(lists: Map<string, T[]>, key: string, one: T): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [one]);
  else list.push(one);
}
