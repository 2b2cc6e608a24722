import type { PartialLevel } from "../partials/PartialLevel.js";
import { sampleSpread } from "../statistics/sampleSpread.js";
import { tQuantile } from "../statistics/tQuantile.js";
import { NORMAL_95, REFERENCE_RANGE_HZ, STRING_SLOPE_DB } from "./bodyPolicy.js";

/** How one low partial of a string arrives. */
export interface PartialReach {
  readonly number: number;
  readonly frequencyHz: number;
  /** How far it lies under what an even body would give of it (positive: weaker), in dB; null where it can't be told. */
  readonly belowEvenDb: number | null;
  readonly interval95Db: readonly [number, number] | null;
  /** Why `belowEvenDb` is null. */
  readonly lacking: "shared" | "not-heard" | "no-strength" | null;
}

/** How far down a string is heard, and through which of its partials. */
export interface StringReach {
  /** The first partials, from 1. */
  readonly partials: readonly PartialReach[];
  /** Numbers of the partials within 10 dB of the strongest of the first eight; empty where none of them was heard. */
  readonly carriers: readonly number[];
  /** True where the fundamental is not among the carriers; null where it is shared with another string. */
  readonly isFundamentalWeak: boolean | null;
  /** How many partials from 355 to 1413 Hz the string's strength was taken from. */
  readonly strengthPartialCount: number;
}

const FIRST_PARTIALS = 6;
const CARRIER_PARTIALS = 8;
/** Our policy: what lies farther under the strongest partial adds little to what is heard. */
const CARRIER_WITHIN_DB = 10;
/** Our policy: fewer don't show their own scatter. */
const LEAST_FOR_STRENGTH = 4;

/**
 * How the low partials of a string arrive, against an even body on an ideally bowed string (partial n at 1/n).
 *
 * The strength of the string is the mean of level + 20 lg n over its partials from 355 to 1413 Hz, the partial in question left
 * out. The interval holds the scatter of these (Student's t) and a slope of the string off 1/n by 1.5 dB an octave
 * (policy), which grows with the octaves between. One string can't tell its own slope from the body; the body curve of several can
 * in part.
 *
 * @param partials - of one string; levels relative to the string or to full scale alike
 */
export function reachOfString(partials: readonly PartialLevel[]): StringReach {
  const heard = partials.flatMap(({ number, frequencyHz, levelDb }) =>
    levelDb === null
      ? []
      : [
          {
            number,
            levelDb,
            evenedDb: levelDb + 20 * Math.log10(number),
            isReference: isReference(frequencyHz),
          },
        ],
  );
  const reference = heard.filter((partial) => partial.isReference);
  const carrying = heard.filter(({ number }) => number <= CARRIER_PARTIALS);
  const strongestDb = Math.max(...carrying.map(({ levelDb }) => levelDb));
  const carriers = carrying
    .filter(({ levelDb }) => levelDb >= strongestDb - CARRIER_WITHIN_DB)
    .map(({ number }) => number)
    .sort((a, b) => a - b);
  const fundamental = partials.find(({ number }) => number === 1);
  return {
    partials: partials
      .filter(({ number }) => number <= FIRST_PARTIALS)
      .sort((a, b) => a.number - b.number)
      .map((partial) => partialReach(partial, reference)),
    carriers,
    isFundamentalWeak: fundamental?.shared === true || heard.length === 0 ? null : !carriers.includes(1),
    strengthPartialCount: reference.length,
  };
}

function isReference(frequencyHz: number): boolean {
  return frequencyHz >= REFERENCE_RANGE_HZ.from && frequencyHz < REFERENCE_RANGE_HZ.to;
}

function partialReach(
  { number, frequencyHz, levelDb, shared }: PartialLevel,
  reference: readonly { readonly number: number; readonly evenedDb: number }[],
): PartialReach {
  const nothing = { number, frequencyHz, belowEvenDb: null, interval95Db: null };
  if (levelDb === null) return { ...nothing, lacking: shared ? "shared" : "not-heard" };
  const others = reference.filter((other) => other.number !== number);
  const { count, mean, standardDeviation } = sampleSpread(others.map(({ evenedDb }) => evenedDb));
  if (count < LEAST_FOR_STRENGTH || mean === null || standardDeviation === null)
    return { ...nothing, lacking: "no-strength" };
  const belowEvenDb = mean - 20 * Math.log10(number) - levelDb;
  const octaves = others.reduce((sum, other) => sum + Math.log2(other.number / number), 0) / count;
  const half = Math.hypot(
    (tQuantile(0.975, count - 1) * standardDeviation) / Math.sqrt(count),
    NORMAL_95 * STRING_SLOPE_DB * octaves,
  );
  return {
    number,
    frequencyHz,
    belowEvenDb,
    interval95Db: [belowEvenDb - half, belowEvenDb + half],
    lacking: null,
  };
}
