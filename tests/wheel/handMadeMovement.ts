import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import type { StringMovement } from "../../src/strings/StringMovement.js";
import type { TurningPassage } from "../../src/wheel/readWheelPassage.js";

const HOP_SECONDS = 0.01;

/** A movement from what pitch (cents) and level (decibels) are at each moment. */
export function movementOf(
  durationSeconds: number,
  centsAt: (seconds: number) => number,
  levelAt: (seconds: number) => number,
): StringMovement {
  const count = Math.round(durationSeconds / HOP_SECONDS) + 1;
  const centSeconds = new Float64Array(count);
  const levelDb = new Float64Array(count);
  for (let m = 0; m < count; m++) {
    if (m > 0) centSeconds[m] = centSeconds[m - 1] + HOP_SECONDS * centsAt((m - 0.5) * HOP_SECONDS);
    levelDb[m] = levelAt(m * HOP_SECONDS);
  }
  return { hopSeconds: HOP_SECONDS, centSeconds, levelDb };
}

/** A passage of strings by their movements. */
export function passageOf(
  durationSeconds: number,
  movements: Readonly<Record<string, StringMovement>>,
): TurningPassage {
  const strings = Object.entries(movements).map(([name, movement]) => ({ name, movement }));
  return { startSeconds: 1, endSeconds: 1 + durationSeconds, strings };
}

/** A first-order Gauss-Markov process, asked for at moments that come one after another, a hop apart. */
export function gaussMarkov(
  deviation: number,
  correlationSeconds: number,
  random: SeededRandom,
): () => number {
  const keep = Math.exp(-HOP_SECONDS / correlationSeconds);
  const step = deviation * Math.sqrt(1 - keep * keep);
  let value = random.normal(deviation);
  return () => {
    value = value * keep + random.normal(step);
    return value;
  };
}
