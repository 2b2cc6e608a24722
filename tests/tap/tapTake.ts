import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type BodyMode, type Tap, type TappedBody, tappedBody } from "../../src/synthesis/tappedBody.js";
import { roomTail } from "./roomTail.js";

/** What a random take is to be like. */
export interface TapTakeOptions {
  readonly seed: number;
  /** Energy of the room's sound against the direct one; no room where not given. */
  readonly roomDb?: number;
  /** Noise against the peak; 30 to 50 dB below it, at random, where not given. */
  readonly noiseDb?: number;
  readonly sampleRateHz?: number;
}

/** A random take of taps and the truth about it. */
export interface TapTake extends TappedBody {
  readonly modes: readonly BodyMode[];
  readonly taps: readonly Tap[];
  readonly sampleRateHz: number;
  readonly noiseDb: number;
}

/** Neighbours stand this far apart at least. */
const LEAST_RATIO = 1.1;

/**
 * A body of 3 to 10 modes from 80 to 1500 Hz, Q 10 to 60, neighbours 10 % apart or more (three in ten exactly so), strengths within
 * 20 dB; 3 to 10 taps a second apart, each with a force and a contact of 0.5 to 5 ms of its own.
 */
export function tapTake({ seed, roomDb, noiseDb, sampleRateHz = 24_000 }: TapTakeOptions): TapTake {
  const random = new SeededRandom(seed);
  // Neighbouring seeds begin alike.
  for (let i = 0; i < 20; i++) random.uniform();
  const count = 3 + Math.floor(random.uniform(0, 8));
  const modes: BodyMode[] = [];
  let frequencyHz = 80 * Math.exp(random.uniform(0, 0.5));
  while (modes.length < count && frequencyHz < 1500) {
    modes.push({ frequencyHz, q: random.uniform(10, 60), strengthDb: -random.uniform(0, 20) });
    frequencyHz *= LEAST_RATIO + (random.uniform() < 0.3 ? 0 : random.uniform(0, 0.5));
  }
  const taps = Array.from({ length: 3 + Math.floor(random.uniform(0, 8)) }, (_, i) => ({
    atSeconds: 0.7 + i + random.uniform(0, 0.1),
    force: random.uniform(0.4, 1),
    contactSeconds: 0.0005 * 10 ** random.uniform(0, 1),
  }));
  const noise = noiseDb ?? -random.uniform(30, 50);
  const t60Seconds = random.uniform(0.15, 0.6);
  const room =
    roomDb === undefined ? {} : { room: roomTail(sampleRateHz, { energyDb: roomDb, t60Seconds, seed }) };
  const take = tappedBody({
    modes,
    taps,
    durationSeconds: taps.length + 1.2,
    sampleRateHz,
    seed,
    noiseDb: noise,
    ...room,
  });
  return { ...take, modes, taps, sampleRateHz, noiseDb: noise };
}

/** The take as a recording. */
export function recordingOf({ samples, sampleRateHz }: Pick<TapTake, "samples" | "sampleRateHz">) {
  return memoryRecording([samples], sampleRateHz);
}
