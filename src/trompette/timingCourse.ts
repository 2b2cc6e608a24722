import { median } from "../signal/median.js";
import type { RisingCourse } from "./fitOnset.js";
import { riseShape } from "./riseShape.js";
import type { UpperBands } from "./upperBands.js";

/** A stretch with buzz. */
interface Sounding {
  readonly onsetSeconds: number;
  readonly endSeconds: number;
}

/** What a take's strokes can be timed by. */
export interface TimingCourse extends RisingCourse {
  /** How far apart the knocks come that are independent of each other, seconds: for so long nothing may be heard of a buzz. */
  readonly roughSeconds: number;
}

/** Inner part of a stroke. */
const INNER_SECONDS = [0.006, 0.036] as const;
const LEAST_INNER = 4;
/** Strokes differ in strength at least so much, as a share, which keeps one band from counting for all. */
const LEAST_SPREAD_SQUARED = 0.1;
/** What a buzz is taken to scatter at least: its strength also falls from its beginning to its end. */
const LEAST_OWN_SPREAD = 0.4;
/** The usual time of a rise. */
const ATTACK_SECONDS = 0.01;
/** Of a frame, the part around its middle that smears a rise. */
const SMEAR_SHARE = 0.3;
/** Noise is what moves within this long: slower drifts are the same before and after an onset. */
const NOISE_SECONDS = 0.06;
const LEAST_NOISE_FRAMES = 200;
/** Independent length of a frame's power, (integral of w^2)^2 over the integral of w^4 of a Hann window w. */
const INDEPENDENT_SHARE = 0.514;

/**
 * Unites the upper bands for timing, as the strokes found so far show them: each band counts by what a stroke adds to it over how much
 * that scatters within strokes and without (linear discriminant of independent bands, Fisher 1936). A band to which the buzz adds nothing
 * counts for nothing, however steady it is.
 *
 * @param strokes - at least one
 */
export function timingCourse(upper: UpperBands, strokes: readonly Sounding[]): TimingCourse {
  const { course, levelDb, baselineDb, isKnown } = upper;
  const { hopSeconds, firstSeconds, frameSeconds, count, isHeard } = course;
  const inner = strokes
    .map(({ onsetSeconds, endSeconds }) => {
      const first = (onsetSeconds + INNER_SECONDS[0] - firstSeconds) / hopSeconds;
      const last = (Math.min(endSeconds, onsetSeconds + INNER_SECONDS[1]) - firstSeconds) / hopSeconds;
      return [Math.max(0, Math.round(first)), Math.min(count, Math.round(last))] as const;
    })
    .filter(([first, last]) => last - first >= LEAST_INNER);
  const power = new Float64Array(count);
  for (const [b, level] of levelDb.entries()) {
    const added = level.map((value, m) =>
      isHeard[m] === 1 ? 10 ** ((value - baselineDb[b][m]) / 10) - 1 : 0,
    );
    const { mean, variance } = withinStrokes(added);
    const scatter = variance + meanSquare(added) + LEAST_SPREAD_SQUARED * mean ** 2;
    const weight = mean > 0 ? mean / scatter : 0;
    for (let m = 0; m < count; m++) power[m] += weight * added[m];
  }
  const { share } = withinStrokes(power);
  return {
    power,
    noise: noiseOf(power),
    ownSpread: Math.max(LEAST_OWN_SPREAD, share),
    shape: riseShape(ATTACK_SECONDS, frameSeconds, hopSeconds),
    halfRise: (ATTACK_SECONDS / 2 + SMEAR_SHARE * frameSeconds) / hopSeconds,
    roughSeconds: INDEPENDENT_SHARE * frameSeconds * share ** 2,
  };

  /** Mean and variance within strokes, and the usual standard deviation as a share of the mean. */
  function withinStrokes(values: Float64Array) {
    const each = inner.map(([first, last]) => {
      const part = values.subarray(first, last);
      const mean = part.reduce((sum, value) => sum + value, 0) / part.length;
      const variance = part.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (part.length - 1);
      return { mean, variance, share: Math.sqrt(variance) / Math.max(1e-12, Math.abs(mean)) };
    });
    const over = Math.max(1, each.length);
    return {
      mean: each.reduce((sum, one) => sum + one.mean, 0) / over,
      variance: each.reduce((sum, one) => sum + one.variance, 0) / over,
      share: each.length === 0 ? LEAST_OWN_SPREAD : median(each.map((one) => one.share)),
    };
  }

  function meanSquare(values: Float64Array): number {
    let [sum, known] = [0, 0];
    for (let m = 0; m < count; m++) {
      if (isKnown[m] === 0) continue;
      sum += values[m] ** 2;
      known++;
    }
    return known === 0 ? 1 : sum / known;
  }

  /** Standard deviation within short stretches that are known to be without buzz; of all such moments where these are few. */
  function noiseOf(values: Float64Array): number {
    const width = Math.round(NOISE_SECONDS / hopSeconds);
    let [sum, frames] = [0, 0];
    for (let first = 0; first + width <= count; first += width >> 1) {
      if (isKnown.subarray(first, first + width).includes(0)) continue;
      const part = values.subarray(first, first + width);
      const mean = part.reduce((total, value) => total + value, 0) / width;
      for (const value of part) sum += (value - mean) ** 2;
      frames += width;
    }
    return Math.sqrt(frames >= LEAST_NOISE_FRAMES ? sum / frames : meanSquare(values));
  }
}
