import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import type { BuzzKind } from "./buzzCarrier.js";
import type { Stroke, TrompettePlan } from "./trompetteTake.js";

const KINDS: readonly BuzzKind[] = ["each-period", "second-period", "irregular", "noise"];
const NOTES_HZ = [130.8128, 195.9977, 261.6256, 293.6648, 391.9954];
const RATES_HZ = [16_000, 32_000, 44_100];

export interface RandomPlanOptions {
  readonly drones?: boolean;
  readonly kind?: BuzzKind;
}

/** A take of the trompette alone or with drones, drawn at random from the ranges that the bench is asked to read. */
export function randomPlan(
  random: SeededRandom,
  seed: number,
  options: RandomPlanOptions = {},
): TrompettePlan {
  // The first numbers of neighbouring seeds resemble each other.
  for (let i = 0; i < 20; i++) random.uniform();
  const pick = <T>(of: readonly T[]) => of[Math.floor(random.uniform(0, of.length))];
  const kind = options.kind ?? pick(KINDS);
  const sampleRateHz = pick(RATES_HZ);
  const frequencyHz = pick(NOTES_HZ) * 2 ** (random.uniform(-15, 15) / 1200);
  const turnsPerSecond = random.uniform(0.8, 2.5);
  let perTurn = Math.floor(random.uniform(1, 7));
  while (perTurn * turnsPerSecond > 10) perTurn--;
  const every = 1 / (perTurn * turnsPerSecond);
  const startSeconds = 0.8;
  const silentSeconds = random.uniform(1.5, 3);
  // Eight strokes or more, as players are asked for.
  const strokedSeconds = Math.max(random.uniform(2.5, 4), 8 * every);
  const strengthDb = random.uniform(-15, 6);
  const duty = random.uniform(0.35, 0.8);
  const timing = random.uniform(0.002, 0.012);
  const spreadDb = random.uniform(0.3, 2);
  const attackSeconds = random.uniform(0.005, 0.015);
  const releaseSeconds = random.uniform(0.004, 0.02);
  const strokes: Stroke[] = [];
  for (let t = startSeconds + silentSeconds; t < startSeconds + silentSeconds + strokedSeconds; t += every) {
    const isGhost = random.uniform() < 0.05;
    strokes.push({
      onsetSeconds: t + random.normal(Math.min(timing, 0.04 * every)),
      durationSeconds: Math.min(0.35, Math.max(0.04, duty * every * random.uniform(0.9, 1.1))),
      strengthDb: strengthDb + random.normal(spreadDb) - (isGhost ? 6 : 0),
      attackSeconds: attackSeconds * random.uniform(0.8, 1.2),
      releaseSeconds,
    });
  }
  const reverberant = random.uniform() < 0.6;
  return {
    seed,
    frequencyHz,
    sampleRateHz,
    kind,
    strokes,
    startSeconds,
    turnsPerSecond,
    bowedSeconds: silentSeconds + strokedSeconds + 0.6,
    dropCents: random.uniform(2, 15),
    kickDb: random.uniform(-0.5, 1),
    tilt: random.uniform(1, 1.6),
    swingCents: random.uniform(0.3, 2),
    levelSwingDb: random.uniform(0.2, 1.2),
    jitterCents: random.uniform(0.2, 0.6),
    noiseDb: -random.uniform(30, 40),
    harshDb: random.uniform(-45, -28),
    harshMoveDb: random.uniform(1, 3),
    ...(reverberant && {
      reverberationSeconds: random.uniform(0.15, 0.5),
      roomDb: random.uniform(-12, -3),
    }),
    ...(options.drones && { drones: randomDrones(random, frequencyHz) }),
  };
}

/** One or two drones a fourth to two octaves below, nearly pure. */
function randomDrones(random: SeededRandom, stringHz: number) {
  const ratios = [1 / 2, 3 / 4, 3 / 8, 1 / 4].filter((ratio) => ratio * stringHz > 60);
  const first = Math.floor(random.uniform(0, ratios.length));
  const both = random.uniform() < 0.5;
  return ratios
    .filter((_, r) => r === first || (both && r === (first + 1) % ratios.length))
    .map((ratio) => ({
      frequencyHz: ratio * stringHz * 2 ** (random.uniform(-6, 6) / 1200),
      strength: 0.05 * 10 ** (random.uniform(-6, 3) / 20),
    }));
}
