import { bowedString } from "../../src/synthesis/bowedString.js";
import { type BodyMode, tappedBody } from "../../src/synthesis/tappedBody.js";
import { roomTail } from "./roomTail.js";

export const RATE_HZ = 24_000;
/** All takes are made in one room. */
const ROOM_SEED = 4;

/** An invented body. */
export const lightBody: readonly BodyMode[] = [
  { frequencyHz: 108.4, q: 14, strengthDb: -9 },
  { frequencyHz: 172.6, q: 22, strengthDb: -3 },
  { frequencyHz: 214.9, q: 28, strengthDb: 0 },
  { frequencyHz: 296.3, q: 31, strengthDb: -6 },
  { frequencyHz: 388.1, q: 35, strengthDb: -4 },
  { frequencyHz: 509.7, q: 40, strengthDb: -10 },
  { frequencyHz: 631.2, q: 33, strengthDb: -5 },
  { frequencyHz: 803.5, q: 38, strengthDb: -9 },
  { frequencyHz: 1032, q: 45, strengthDb: -6 },
  { frequencyHz: 1295, q: 42, strengthDb: -10 },
];

/** The same with a stiffer board: two modes higher, one that rings shorter. */
export const stiffBody: readonly BodyMode[] = lightBody.map((mode, k) => ({
  ...mode,
  frequencyHz: mode.frequencyHz * (k === 1 ? 1.042 : k === 2 ? 1.025 : 1),
  q: k === 4 ? 22 : mode.q,
}));

/** Eight taps on a body, a second apart, with a light padded stick, in a quiet room with curtains. */
export function tapsOn(modes: readonly BodyMode[], seed: number, count = 8) {
  return tappedBody({
    modes,
    taps: Array.from({ length: count }, (_, i) => ({
      atSeconds: 1 + 1.1 * i + 0.05 * Math.sin(7 * i + seed),
      force: 0.7 + 0.25 * Math.sin(3 * i + seed),
      contactSeconds: 0.0008 + 0.0004 * Math.sin(5 * i + seed),
    })),
    durationSeconds: 1.2 + 1.1 * count,
    sampleRateHz: RATE_HZ,
    seed,
    noiseDb: -48,
    room: roomTail(RATE_HZ, { energyDb: -32, t60Seconds: 0.3, seed: ROOM_SEED }),
  }).samples;
}

/** What the body makes of a force at a frequency: its modes, added up with the phases that they have. */
function responseOf(modes: readonly BodyMode[], frequencyHz: number): number {
  let [re, im] = [0, 0];
  for (const { frequencyHz: own, q, strengthDb } of modes) {
    const real = own * own - frequencyHz * frequencyHz;
    const imaginary = (own * frequencyHz) / q;
    const size = (10 ** (strengthDb / 20) * own * own) / (real * real + imaginary * imaginary);
    re += size * real;
    im -= size * imaginary;
  }
  return Math.hypot(re, im);
}

/** The strings of an alto bowed in turn on the body, four seconds each. */
export function bowedOn(
  modes: readonly BodyMode[],
  seed: number,
  stringsHz: readonly number[],
): Float32Array {
  const parts = stringsHz.map((frequencyHz, i) => {
    const { samples } = bowedString({
      frequencyHz,
      durationSeconds: 4,
      sampleRateHz: RATE_HZ,
      seed: seed + i,
      partialAmplitudes: Array.from(
        { length: 60 },
        (_, n) => (0.004 * responseOf(modes, (n + 1) * frequencyHz)) / (n + 1),
      ),
      swingCents: 1,
      jitterCents: 0.5,
    });
    return samples;
  });
  const pause = RATE_HZ;
  const whole = new Float32Array(parts.reduce((sum, part) => sum + part.length + pause, pause));
  let at = pause;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length + pause;
  }
  let state = seed;
  return whole.map((value) => {
    state = (state * 16807) % 2147483647;
    return value + 1e-4 * (state / 1073741823.5 - 1);
  });
}
