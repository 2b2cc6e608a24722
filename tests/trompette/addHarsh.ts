import type { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** Noise of a rough bow, whose strength wanders. */
export function addHarsh(
  samples: Float32Array,
  first: number,
  length: number,
  power: number,
  moveDb: number,
  sampleRateHz: number,
  random: SeededRandom,
): void {
  const keep = Math.exp(-1 / (0.06 * sampleRateHz));
  const step = moveDb * Math.sqrt(1 - keep * keep);
  let levelDb = random.normal(moveDb);
  let before = 0;
  for (let i = 0; i < length; i++) {
    levelDb = levelDb * keep + random.normal(step);
    const white = random.normal(Math.sqrt(power));
    // A gentle rise towards high frequency.
    samples[first + i] += (white - 0.5 * before) * 10 ** (levelDb / 20);
    before = white;
  }
}
