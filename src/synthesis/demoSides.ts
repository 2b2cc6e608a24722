import { SeededRandom } from "../statistics/SeededRandom.js";
import { type BodyResonance, bodyAmplitudes } from "./bodyAmplitudes.js";
import { bowedString } from "./bowedString.js";

/** One take of the invented comparison. */
export interface DemoSideTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
}

/** One invented instrument and its takes. */
export interface DemoSide {
  readonly name: string;
  readonly takes: readonly DemoSideTake[];
}

interface Box {
  readonly name: string;
  readonly lowestModeHz: number;
  readonly resonances: readonly BodyResonance[];
}

const SAMPLE_RATE_HZ = 16_000;
const TAKES = 3;
const NOTE_SECONDS = 2.6;
const PAUSE_SECONDS = 1;

/** Three invented sound boxes, the longer the lower. */
const BOXES: readonly Box[] = [
  {
    name: "short scale",
    lowestModeHz: 150,
    resonances: [
      { frequencyHz: 165, q: 8, gainDb: 6 },
      { frequencyHz: 310, q: 12, gainDb: 7 },
      { frequencyHz: 600, q: 14, gainDb: 5 },
    ],
  },
  {
    name: "middle scale",
    lowestModeHz: 120,
    resonances: [
      { frequencyHz: 138, q: 8, gainDb: 6 },
      { frequencyHz: 280, q: 12, gainDb: 7 },
      { frequencyHz: 570, q: 14, gainDb: 5 },
    ],
  },
  {
    name: "long scale",
    lowestModeHz: 95,
    resonances: [
      { frequencyHz: 104, q: 8, gainDb: 7 },
      { frequencyHz: 245, q: 12, gainDb: 6 },
      { frequencyHz: 540, q: 14, gainDb: 5 },
    ],
  },
];

/** Nominal pitch and strength, in the order of the demo instrument's file. */
const STRINGS: readonly (readonly [number, number])[] = [
  [65.4064, 0.14],
  [97.9989, 0.12],
  [130.8128, 0.1],
  [195.9977, 0.09],
  [293.6648, 0.08],
  [391.9954, 0.08],
];

/**
 * Three invented instruments of one tuning and three lengths, three takes each: what a reviewer would record. From take to
 * take player and microphone stand elsewhere: the strings differ by a decibel in strength and a cent in pitch, and the room
 * lifts and lowers parts of the range by about a decibel. All seeds are fixed.
 */
export function demoSides(): DemoSide[] {
  return BOXES.map((box, b) => ({
    name: box.name,
    takes: Array.from({ length: TAKES }, (_, t) => demoSideTake(box, 7000 + 100 * b + 10 * t)),
  }));
}

function demoSideTake({ resonances, lowestModeHz }: Box, seed: number): DemoSideTake {
  const random = new SeededRandom(seed);
  const room = [80, 150, 290, 560, 1100].map((frequencyHz) => ({
    frequencyHz: frequencyHz * random.uniform(0.85, 1.15),
    q: 3,
    gainDb: random.normal(0.9),
  }));
  const total = STRINGS.length * (NOTE_SECONDS + PAUSE_SECONDS) + PAUSE_SECONDS;
  const samples = new Float32Array(Math.round(total * SAMPLE_RATE_HZ));
  for (let i = 0; i < samples.length; i++) samples[i] = random.normal(5e-5);
  for (const [index, [nominalHz, strength]] of STRINGS.entries()) {
    const frequencyHz = nominalHz * 2 ** (random.normal(1) / 1200);
    const string = bowedString({
      frequencyHz,
      durationSeconds: NOTE_SECONDS,
      sampleRateHz: SAMPLE_RATE_HZ,
      seed: seed + index,
      partialAmplitudes: bodyAmplitudes(
        frequencyHz,
        120,
        strength * 10 ** (random.normal(1) / 20),
        [...resonances, ...room],
        lowestModeHz,
      ),
      swingCents: 1,
      swingRateHz: 1.35,
      swingRateSpread: 0.02,
      jitterCents: 0.4,
      levelSwingDb: 0.5,
    });
    const first = Math.round((PAUSE_SECONDS + index * (NOTE_SECONDS + PAUSE_SECONDS)) * SAMPLE_RATE_HZ);
    for (let i = 0; i < string.samples.length; i++) samples[first + i] += string.samples[i];
  }
  return { samples, sampleRateHz: SAMPLE_RATE_HZ };
}
