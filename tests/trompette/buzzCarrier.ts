import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { convolved } from "./room.js";

/**
 * How the loose bridge knocks: once a period of the string, every second period, at irregular moments of the period, or as noise.
 * No recording of a real one was to hand, so several kinds stand in for it.
 */
export type BuzzKind = "each-period" | "second-period" | "irregular" | "noise";

/** One knock of the bridge's foot: the sample at which its ring begins, and its amplitude before any envelope. */
export interface Knock {
  readonly sample: number;
  readonly amount: number;
}

/** A buzz of unit power, its knocks (none of noise), and the ring that each of them starts. */
export interface BuzzCarrier {
  readonly samples: Float32Array;
  readonly knocks: readonly Knock[];
  readonly ring: Float32Array;
}

/** A buzz of unit power: knocks of the bridge foot, each a short wideband ring, or noise through the same sound board. */
export function buzzCarrier(
  { frequencyHz, kind }: { readonly frequencyHz: number; readonly kind: BuzzKind },
  pitch: { meanHz(from: number, to: number): number },
  first: number,
  count: number,
  sampleRateHz: number,
  random: SeededRandom,
): BuzzCarrier {
  const modes = Array.from({ length: 10 }, (_, m) => ({
    hz: Math.min(0.44 * sampleRateHz, 1000 * 9 ** ((m + random.uniform(0, 1)) / 10)),
    decay: random.uniform(0.0006, 0.003),
    amount: random.normal(1),
  }));
  // A part of it comes from lower modes of the board.
  modes.push({ hz: random.uniform(350, 900), decay: 0.004, amount: random.normal(0.25) });
  const ring = Float32Array.from({ length: Math.round(0.012 * sampleRateHz) }, (_, i) =>
    modes.reduce(
      (sum, { hz, decay, amount }) =>
        sum +
        amount * Math.exp(-i / (decay * sampleRateHz)) * Math.sin((2 * Math.PI * hz * i) / sampleRateHz),
      0,
    ),
  );
  const carrier = new Float32Array(count);
  if (kind === "noise") {
    for (let i = 0; i < count; i++) carrier[i] = random.normal();
    const shaped = convolved(carrier, ring);
    return { samples: unitPower(shaped), knocks: [], ring };
  }
  let next = random.uniform(0, 1);
  let last = 0;
  const offset = random.uniform(0, 1);
  let cycles = offset;
  let swings = 0;
  const knocks: Knock[] = [];
  for (let i = 0; i < count; i++) {
    const since = Math.max(0, (i - first) / sampleRateHz);
    if (i % 32 === 0) last = since > 0 ? pitch.meanHz(since, since + 32 / sampleRateHz) : frequencyHz;
    cycles += last / sampleRateHz;
    if (cycles < next) continue;
    swings++;
    next += 1;
    if (kind === "second-period" && swings % 2 === 0) continue;
    if (kind === "irregular" && random.uniform() < 0.15) continue;
    const late = kind === "irregular" ? random.uniform(0, 0.25) : random.uniform(0, 0.01);
    const amount = kind === "irregular" ? random.uniform(0.5, 1.4) : random.uniform(0.85, 1.15);
    const start = i + Math.round((late / frequencyHz) * sampleRateHz);
    knocks.push({ sample: start, amount });
    for (let k = 0; k < ring.length && start + k < count; k++) carrier[start + k] += amount * ring[k];
  }
  return { samples: unitPower(carrier), knocks, ring };
}

function unitPower(samples: Float32Array): Float32Array {
  const inner = samples.subarray(Math.floor(samples.length * 0.2), Math.floor(samples.length * 0.8));
  const scale = 1 / Math.sqrt(inner.reduce((sum, value) => sum + value * value, 0) / inner.length);
  return samples.map((value) => value * scale);
}
