import type { StringPartial } from "./StringPartial.js";

/** A partial of a string, averaged over takes. */
export interface AveragedPartial {
  readonly string: string;
  readonly number: number;
  readonly frequencyHz: number;
  /** Level with the 1/n slope of the ideal bowed string taken out, in dB. */
  readonly evenedDb: number;
  /** Standard deviation that noise gives the level, in dB. */
  readonly noiseSdDb: number;
}

const MOST_ROUNDS = 2000;
const SETTLED_DB = 1e-9;

/**
 * Levels of each string's partials over all takes: level = what the take was louder + the partial's own, by least squares, so that
 * a partial missing from a loud take does not come out too strong. The 1/n slope is taken out (20 lg n added).
 *
 * Takes of a string that share no partial with the others are joined by their levels as they stand.
 */
export function averagedPartials(partials: readonly StringPartial[]): AveragedPartial[] {
  const strings = grouped(partials, ({ string }) => string);
  return [...strings.values()].flatMap(averageOfString);
}

function averageOfString(partials: readonly StringPartial[]): AveragedPartial[] {
  const takes = [...grouped(partials, ({ take }) => take).values()];
  const numbers = grouped(partials, ({ number }) => number);
  const takeDb = new Map<string | undefined, number>();
  const partialDb = new Map<number, number>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    for (const [number, same] of numbers)
      partialDb.set(number, mean(same.map(({ levelDb, take }) => levelDb - (takeDb.get(take) ?? 0))));
    if (takes.length === 1) break;
    let moved = 0;
    for (const same of takes) {
      const louderDb = mean(same.map(({ levelDb, number }) => levelDb - partialDb.get(number)!));
      moved = Math.max(moved, Math.abs(louderDb - (takeDb.get(same[0].take) ?? 0)));
      takeDb.set(same[0].take, louderDb);
    }
    if (moved < SETTLED_DB) break;
  }
  return [...numbers].map(([number, same]) => ({
    string: same[0].string,
    number,
    frequencyHz: mean(same.map(({ frequencyHz }) => frequencyHz)),
    evenedDb: partialDb.get(number)! + 20 * Math.log10(number),
    noiseSdDb: Math.hypot(...same.map(({ signalToNoiseDb }) => noiseSdDb(signalToNoiseDb))) / same.length,
  }));
}

/**
 * Standard deviation of a level in noise: a relative error of the amplitude of 1 / sqrt(2 q), q the power ratio, is 20 lg e times
 * that in dB. Holds for one frame, so it is an upper bound for a passage.
 */
function noiseSdDb(signalToNoiseDb: number | null): number {
  return signalToNoiseDb === null ? 0 : (20 * Math.LOG10E * 10 ** (-signalToNoiseDb / 20)) / Math.SQRT2;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function grouped<T, K>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}
