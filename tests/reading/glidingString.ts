import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";

/** A string whose pitch follows a given course besides the swing of the wheel. */
export interface GlidingString {
  readonly frequencyHz: number;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** Cents from `frequencyHz` at a time of the take. */
  readonly centsAt: (seconds: number) => number;
  readonly levelDb?: number;
}

const SWING_CENTS = 1.2;
const TURNS_PER_SECOND = 1.4;
const FADE_SECONDS = 0.1;

/** Adds a string to a take. Its phase is the sum of its frequency, so the course given is the truth, but for the swing. */
export function addGliding(
  samples: Float32Array,
  sampleRateHz: number,
  string: GlidingString,
  seed: number,
): void {
  const { frequencyHz, fromSeconds, toSeconds, centsAt, levelDb = 0 } = string;
  const random = new SeededRandom(seed);
  const amplitudes = bodyAmplitudes(frequencyHz, 60, 0.1, [{ frequencyHz: 265, q: 10, gainDb: 8 }], 100)
    .filter((_, n) => (n + 1) * frequencyHz < 0.42 * sampleRateHz)
    .map((amplitude) => ({ amplitude, cycles: random.uniform(0, 1) }));
  const turn = random.uniform(0, 1);
  let phase = 0;
  for (let i = Math.round(fromSeconds * sampleRateHz); i < toSeconds * sampleRateHz; i++) {
    const seconds = i / sampleRateHz;
    const swing = SWING_CENTS * Math.sin(2 * Math.PI * (turn + TURNS_PER_SECOND * seconds));
    phase += (frequencyHz * 2 ** ((centsAt(seconds) + swing) / 1200)) / sampleRateHz;
    const edge = Math.min(1, (seconds - fromSeconds) / FADE_SECONDS, (toSeconds - seconds) / FADE_SECONDS);
    const level = 10 ** (levelDb / 20) * (0.5 - 0.5 * Math.cos(Math.PI * edge));
    for (const [n, { amplitude, cycles }] of amplitudes.entries()) {
      samples[i] += level * amplitude * Math.cos(2 * Math.PI * ((n + 1) * phase + cycles));
    }
  }
}
