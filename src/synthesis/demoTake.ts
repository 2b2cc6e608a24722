import { SeededRandom } from "../statistics/SeededRandom.js";
import { type BodyResonance, bodyAmplitudes } from "./bodyAmplitudes.js";
import { bowedString } from "./bowedString.js";

/** One string of the invented scenario. */
export interface DemoString {
  readonly name: string;
  readonly frequencyHz: number;
  readonly startSeconds: number;
}

/** The synthesised take and its truth. */
export interface DemoTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly strings: readonly DemoString[];
}

const SAMPLE_RATE_HZ = 22_050;
const NOTE_SECONDS = 5;
const PAUSE_SECONDS = 1.8;

/** An invented sound box: a lowest mode, an air mode and two of the top. */
const BODY: readonly BodyResonance[] = [
  { frequencyHz: 118, q: 6, gainDb: 7 },
  { frequencyHz: 265, q: 12, gainDb: 8 },
  { frequencyHz: 540, q: 15, gainDb: 6 },
];
const LOWEST_MODE_HZ = 105;

/** Order of recording, nominal pitch, cents off, strength, swing of the wheel, random movement. */
const SCENARIO: readonly (readonly [string, number, number, number, number, number])[] = [
  ["top melody", 391.9954, -4.2, 0.1, 1.1, 0.5],
  ["middle melody", 293.6648, 6.3, 0.09, 1.3, 0.5],
  ["low melody", 195.9977, 1.4, 0.11, 0.9, 0.4],
  ["bass drone", 65.4064, 2.6, 0.22, 0.7, 0.4],
  ["fifth drone", 97.9989, -82.5, 0.2, 0.8, 0.4],
  ["tenor drone", 130.8128, 2.1, 0.15, 2.8, 0.9],
];

/**
 * The demo's scenario, invented from end to end: an instrument on the bench with one drone newly strung and still far
 * too low, one melody string a little flat, another a little sharp; 50 Hz hum and the noise of a quiet workshop.
 */
export function demoTake(): DemoTake {
  const random = new SeededRandom(2026);
  const total = SCENARIO.length * (NOTE_SECONDS + PAUSE_SECONDS) + PAUSE_SECONDS;
  const samples = new Float32Array(Math.round(total * SAMPLE_RATE_HZ));
  let brown = 0;
  for (let i = 0; i < samples.length; i++) {
    // White noise with a rise towards low frequency, as rooms have it.
    brown = brown * 0.995 + random.normal(8e-6);
    samples[i] = random.normal(2.5e-5) + brown;
    const hum = 2 * Math.PI * 50 * (i / SAMPLE_RATE_HZ);
    samples[i] += 1.2e-4 * Math.sin(hum) + 6e-5 * Math.sin(2 * hum + 1) + 5e-5 * Math.sin(3 * hum + 2);
  }
  const strings = SCENARIO.map(([name, nominalHz, offsetCents, strength, swingCents, jitterCents], index) => {
    const frequencyHz = nominalHz * 2 ** (offsetCents / 1200);
    const startSeconds = PAUSE_SECONDS + index * (NOTE_SECONDS + PAUSE_SECONDS);
    const string = bowedString({
      frequencyHz,
      durationSeconds: NOTE_SECONDS,
      sampleRateHz: SAMPLE_RATE_HZ,
      seed: 100 + index,
      partialAmplitudes: bodyAmplitudes(frequencyHz, 120, strength, BODY, LOWEST_MODE_HZ),
      swingCents,
      swingRateHz: 1.35,
      swingRateSpread: 0.02,
      jitterCents,
      levelSwingDb: 0.6,
      attackSeconds: 0.12,
      releaseSeconds: 0.3,
    });
    const first = Math.round(startSeconds * SAMPLE_RATE_HZ);
    for (let i = 0; i < string.samples.length; i++) samples[first + i] += string.samples[i];
    return { name, frequencyHz, startSeconds };
  });
  return { samples, sampleRateHz: SAMPLE_RATE_HZ, strings };
}
