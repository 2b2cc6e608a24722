import { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** A coup of the wheel makes the dog buzz for about this long ... */
const BUZZ_SECONDS = 0.09;
/** ... and what lies above here comes out so much louder, ragged by noise that goes with the string (invented values). */
const ABOVE_HZ = 500;
const GAIN = 2.8;
const RAGGED = 0.4;

/**
 * A trompette string whose dog buzzes: what lies above 500 Hz rises by 9 dB for 90 ms a coup, and is ragged by noise; the
 * coups come unevenly by 15 %.
 */
export function buzzing(
  samples: Float32Array,
  sampleRateHz: number,
  buzzesPerSecond: number,
  seed: number,
): Float32Array {
  const random = new SeededRandom(seed);
  const strength = new Float64Array(samples.length);
  const length = Math.round(BUZZ_SECONDS * sampleRateHz);
  for (
    let at = random.uniform(0.2, 0.6);
    at * sampleRateHz < samples.length;
    at += random.uniform(0.85, 1.15) / buzzesPerSecond
  ) {
    const first = Math.round(at * sampleRateHz);
    for (let i = 0; i < length && first + i < samples.length; i++) {
      strength[first + i] = Math.sin((Math.PI * i) / length) ** 2;
    }
  }
  const keep = Math.exp((-2 * Math.PI * ABOVE_HZ) / sampleRateHz);
  let low = 0;
  return samples.map((value, i) => {
    low = keep * low + (1 - keep) * value;
    return value + strength[i] * (GAIN - 1 + random.normal(RAGGED)) * (value - low);
  });
}
