import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import type { PlayedKey, ScalePlan } from "./scaleTake.js";

export interface ScaleCase extends ScalePlan {
  readonly keys: number;
  readonly targetHz: number;
  readonly droneTargetsHz: readonly number[];
}

const MELODY_HZ = [391.9954, 293.6648, 195.9977];
const DRONE_HZ = [65.4064, 97.9989, 130.8128];

/**
 * A random scale: keys off by up to `errorCents`, some missed, some repeated, rising or falling or both, 0.4 to 1.5 s a key,
 * with or without the open string, the string off its target by up to 12 cents.
 */
export function randomScale(
  random: SeededRandom,
  plan: {
    readonly drones: number;
    readonly errorCents?: number;
    readonly keys?: number;
    readonly melodyHz?: number;
  },
): ScaleCase {
  const pick = <T>(values: readonly T[]) => values[Math.floor(random.uniform(0, values.length))];
  const { errorCents = 40, keys = Math.floor(random.uniform(10, 24)) } = plan;
  const targetHz = plan.melodyHz ?? pick(MELODY_HZ);
  const openOff = random.uniform(-12, 12);
  const errors = Array.from({ length: keys + 1 }, (_, k) =>
    k === 0 ? 0 : random.uniform(-errorCents, errorCents),
  );
  const pace = random.uniform(0.4, 1.5);
  const rising: number[] = [];
  for (let key = random.uniform() < 0.7 ? 0 : 1; key <= keys; key++) {
    if (key > 1 && random.uniform() < 0.06) continue;
    rising.push(key);
  }
  const way = random.uniform();
  const order =
    way < 0.5 ? rising : way < 0.75 ? [...rising].reverse() : [...rising, ...[...rising].reverse().slice(1)];
  const played = order.flatMap((key): PlayedKey[] => {
    const seconds = pace * random.uniform(0.9, 1.25);
    const one = { key, seconds: Math.max(0.4, seconds) };
    return random.uniform() < 0.04 ? [one, one] : [one];
  });
  const droneTargetsHz = [...DRONE_HZ].sort(() => random.uniform(-1, 1)).slice(0, plan.drones);
  return {
    openHz: targetHz * 2 ** (openOff / 1200),
    targetHz,
    keys,
    played,
    centsOfKey: (key) => 100 * key + errors[key],
    seed: Math.floor(random.uniform(0, 1e9)),
    swingCents: random.uniform(0.5, 3),
    swingRateHz: random.uniform(0.9, 2),
    swingRateSpread: random.uniform(0, 0.03),
    jitterCents: random.uniform(0.2, 0.6),
    jitterSeconds: random.uniform(0.03, 0.15),
    levelSwingDb: random.uniform(0, 0.8),
    body: [
      { frequencyHz: random.uniform(90, 130), q: 6, gainDb: 6 },
      { frequencyHz: random.uniform(240, 300), q: 10, gainDb: 8 },
      { frequencyHz: random.uniform(480, 600), q: 12, gainDb: 6 },
    ],
    noiseDb: random.uniform(-75, -55),
    drones: droneTargetsHz.map((hz) => ({
      frequencyHz: hz * 2 ** (random.uniform(-12, 12) / 1200),
      strength: 0.1 * 10 ** (random.uniform(-6, 4) / 20),
    })),
    droneTargetsHz,
  };
}
