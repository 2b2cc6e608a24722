import type { StringTarget } from "../instrument/Instrument.js";
import { cents } from "../units/cents.js";
import type { MixedStrings, StringInMixture } from "./MixedStrings.js";
import { nearRatio } from "./nearRatio.js";
import { pitchSteadiness } from "./pitchSteadiness.js";
import type { PairReading } from "./StringReading.js";

/**
 * Pairs of strings near a small-integer ratio, measured where the two sound together. The interval comes from the course
 * of the one against the other, so that a swing that both share cancels. Of several passages the longest counts.
 */
export function pairsTogether(
  mixtures: readonly MixedStrings[],
  targets: readonly StringTarget[],
): PairReading[] {
  const pairs = new Map<string, PairReading>();
  const longestFirst = [...mixtures].sort(
    (a, b) => b.endSeconds - b.startSeconds - (a.endSeconds - a.startSeconds),
  );
  for (const mixture of longestFirst) {
    const told = mixture.strings
      .filter(({ neededSeconds, isGuess }) => neededSeconds === null && !isGuess)
      .sort((a, b) => a.reading.frequencyHz - b.reading.frequencyHz);
    for (const [i, lower] of told.entries()) {
      for (const upper of told.slice(i + 1)) {
        const key = `${lower.targetIndex} ${upper.targetIndex}`;
        const pair = pairs.has(key) ? null : pairOf(lower, upper, mixture, targets);
        if (pair !== null) pairs.set(key, pair);
      }
    }
  }
  return [...pairs.values()];
}

function pairOf(
  lower: StringInMixture,
  upper: StringInMixture,
  { startSeconds, endSeconds }: MixedStrings,
  targets: readonly StringTarget[],
): PairReading | null {
  const lowerHz = lower.reading.frequencyHz;
  const upperHz = upper.reading.frequencyHz;
  const ratio = nearRatio(lowerHz, upperHz);
  if (ratio === null) return null;
  const [p, q] = ratio;
  const centsFromPure = cents((upperHz * q) / p, lowerHz);
  const interval95Cents = intervalOf(lower, upper, startSeconds, endSeconds);
  return {
    lower: targets[lower.targetIndex].name,
    upper: targets[upper.targetIndex].name,
    ratio: `${p}:${q}`,
    basis: "measured",
    centsFromPure,
    interval95Cents:
      interval95Cents === null
        ? null
        : [centsFromPure + interval95Cents[0], centsFromPure + interval95Cents[1]],
    beatsPerSecond: Math.abs(p * lowerHz - q * upperHz),
  };
}

/** Interval of the upper string's course against the lower one's; null where either could not be followed. */
function intervalOf(
  { course: low }: StringInMixture,
  { course: high }: StringInMixture,
  startSeconds: number,
  endSeconds: number,
): readonly [number, number] | null {
  if (low === null || high === null) return null;
  const course = {
    hopSeconds: high.hopSeconds,
    centSeconds: high.centSeconds.map((value, m) => value - low.centSeconds[m]),
  };
  return pitchSteadiness({ startSeconds, endSeconds, steady: false, noiseErrorCents: 0, course })
    .interval95Cents;
}
