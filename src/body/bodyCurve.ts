import { averagedPartials } from "./averagedPartials.js";
import { thirdOctaveBands } from "./bandEdges.js";
import { NORMAL_95, REFERENCE_RANGE_HZ } from "./bodyPolicy.js";
import { bandIndex, connectedStrings } from "./connectedStrings.js";
import type { CurveFit } from "./fitCurve.js";
import { likelyFits } from "./likelyFits.js";
import { type LowReach, lowReach } from "./lowReach.js";
import type { StringPartial } from "./StringPartial.js";

/** The body's curve in one third-octave band. What can't be had is null. */
export interface BodyCurvePoint {
  /** Exact midband (IEC 61260-1, base ten). */
  readonly frequencyHz: number;
  /** Average of the curve over the band, relative to the median of the bands from 355 to 1413 Hz; null where no partial falls. */
  readonly levelDb: number | null;
  readonly interval95Db: readonly [number, number] | null;
  /** Partials of all strings in this band; one heard in several takes counts once. */
  readonly partialCount: number;
}

/** Why there is no curve. */
export type BodyCurveRefusal =
  /** Fewer than three partials more than strings between 44.7 and 2818.4 Hz. */
  | "too-few-partials"
  /** The strings fall into sets that share no band: how strong one set is against the other can't be told from the curve. */
  | "strings-not-connected"
  /** Fewer than three of the six bands from 355 to 1413 Hz hold a partial: nothing to be relative to. */
  | "no-reference";

/** The body curve, or the reason why there is none. */
export type BodyCurve =
  | {
      readonly status: "fitted";
      /** One for each third-octave band from 50 to 2500 Hz. */
      readonly points: readonly BodyCurvePoint[];
      /** Standard deviation of the partials about curve and strings, in dB. */
      readonly scatterDb: number;
      /** Null where the curve lies more than 10 dB under the median at 355 Hz already. */
      readonly lowReach: LowReach | null;
    }
  | {
      readonly status: "refused";
      readonly reason: BodyCurveRefusal;
      /** The sets of strings that hang together. */
      readonly groups: readonly (readonly string[])[];
    };

const LEAST_REFERENCE_BANDS = 3;
const LEAST_SPARE_PARTIALS = 3;

/**
 * What the body (with room and microphone) makes of the strings: the curve that all their partials have in common.
 *
 * Fitted: level of partial n of a string = strength of the string - 20 lg n + slope of the string * log2 n + curve(frequency) +
 * scatter, strengths free, slopes random with 1.5 dB an octave (policy). See `fitCurve` and
 * `likelyFits`. A point is the average of the curve over its third-octave band. Its
 * interval holds the scatter, the few places where partials sample the band, the wander of the curve towards bands that hold
 * little, and the slopes, which can't be told from a tilt of the curve. That all strings of an instrument may have slopes off 1/n in
 * one and the same sense is not in it.
 *
 * On invented bodies (random modes, Q 4 to 18, and a fall of 12 dB an octave below the lowest) the interval holds the truth in 96
 * of 100 cases with 1 or 2 dB of scatter; the lowest band reads 1 to 2 dB too high there (inside its interval),
 * since a fall that one partial a string shows may be the string's slope. Without scatter in the slopes it is too wide (98 to 99 of 100).
 *
 * @param partials - of all strings, one take or several; those that are shared or lost in noise left out
 */
export function bodyCurve(partials: readonly StringPartial[]): BodyCurve {
  const used = averagedPartials(partials.filter(({ frequencyHz }) => bandIndex(frequencyHz) >= 0));
  const groups = connectedStrings(used);
  const counts = thirdOctaveBands.map(() => 0);
  for (const { frequencyHz } of used) counts[bandIndex(frequencyHz)]++;
  const bands = thirdOctaveBands.flatMap((_, index) => (counts[index] > 0 ? [index] : []));
  const reference = bands.flatMap((band, i) => (isReference(band) ? [i] : []));
  const refused = (reason: BodyCurveRefusal): BodyCurve => ({ status: "refused", reason, groups });
  if (used.length < groups.flat().length + LEAST_SPARE_PARTIALS) return refused("too-few-partials");
  if (groups.length > 1) return refused("strings-not-connected");
  if (reference.length < LEAST_REFERENCE_BANDS) return refused("no-reference");

  const fits = likelyFits(used, bands).map((one) => ({ ...one, ...relative(one.fit, reference) }));
  const average = (value: (one: (typeof fits)[number]) => number) =>
    fits.reduce((sum, one) => sum + one.weight * value(one), 0);

  const points = thirdOctaveBands.map(({ midbandHz }, band): BodyCurvePoint => {
    const i = bands.indexOf(band);
    if (i < 0) return { frequencyHz: midbandHz, levelDb: null, interval95Db: null, partialCount: 0 };
    const levelDb = average(({ levels }) => levels[i]);
    const half =
      NORMAL_95 * Math.sqrt(average(({ levels, variances }) => variances[i] + (levels[i] - levelDb) ** 2));
    return {
      frequencyHz: midbandHz,
      levelDb,
      interval95Db: [levelDb - half, levelDb + half],
      partialCount: counts[band],
    };
  });
  return {
    status: "fitted",
    points,
    scatterDb: average(({ scatterDb }) => scatterDb),
    lowReach: lowReach(points, Math.min(...used.map(({ frequencyHz }) => frequencyHz))),
  };
}

function isReference(band: number): boolean {
  const { midbandHz } = thirdOctaveBands[band];
  return midbandHz > REFERENCE_RANGE_HZ.from && midbandHz < REFERENCE_RANGE_HZ.to;
}

/** Levels relative to the median of the reference bands, and their variances relative to the one or two bands that the median is made of. */
function relative({ meansDb, covariance }: CurveFit, reference: readonly number[]) {
  const size = meansDb.length;
  const ranked = [...reference].sort((i, k) => meansDb[i] - meansDb[k]);
  const middle = ranked.slice((ranked.length - 1) >> 1, (ranked.length >> 1) + 1);
  const share = 1 / middle.length;
  const middleDb = middle.reduce((sum, i) => sum + share * meansDb[i], 0);
  const withMiddle = Array.from(meansDb, (_, i) =>
    middle.reduce((sum, k) => sum + share * covariance[i * size + k], 0),
  );
  const ofMiddle = middle.reduce((sum, k) => sum + share * withMiddle[k], 0);
  return {
    levels: Array.from(meansDb, (value) => value - middleDb),
    variances: Array.from(meansDb, (_, i) =>
      Math.max(0, covariance[i * size + i] - 2 * withMiddle[i] + ofMiddle),
    ),
  };
}
