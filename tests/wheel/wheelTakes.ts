import { leastSquares } from "../../src/statistics/leastSquares.js";
import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import type { BowedString } from "../../src/synthesis/bowedString.js";
import { cents } from "../../src/units/cents.js";
import { type BowedTake, bowedTake, NOTE_HZ, type TakeNote } from "../reading/bowedTake.js";

/** What a string's swing really was over a stretch. */
export interface TrueSwing {
  readonly turnsPerSecond: number;
  readonly pitchCents: number;
  readonly levelDb: number;
  /** Where in the turn each is highest, radians. */
  readonly pitchPhase: number;
  readonly levelPhase: number;
}

const SETS = [
  ["G4"],
  ["C2"],
  ["G2", "D4"],
  ["C2", "G3"],
  ["C3", "G4"],
  ["C2", "G3", "D4"],
  ["G2", "C3", "D4"],
] as const;

/** One to three strings at one wheel, drawn at random from the ranges that the bench is asked to read. */
export function randomWheelTake(random: SeededRandom, seed: number): { take: BowedTake; options: TakeNote } {
  const names = SETS[Math.floor(random.uniform(0, SETS.length))];
  const options = {
    durationSeconds: random.uniform(8, 20) + 0.7,
    swingRateHz: random.uniform(0.8, 2.5),
    swingRateSpread: random.uniform(0, 0.05),
    swingCents: 0.3 * (4 / 0.3) ** random.uniform(),
    levelSwingDb: 0.2 * (3 / 0.2) ** random.uniform(),
    jitterCents: random.uniform(0.2, 0.8),
    jitterSeconds: random.uniform(0.03, 0.2),
    levelJitterDb: random.uniform(0.05, 0.4),
    levelJitterSeconds: random.uniform(0.05, 0.4),
    wheelSeed: seed,
  };
  const notes = names.map((name) => ({
    ...options,
    frequencyHz: NOTE_HZ[name] * 2 ** (random.uniform(-8, 8) / 1200),
    contactDegrees: random.uniform(-120, 120),
  }));
  const [first, ...together] = notes;
  return { take: bowedTake([{ ...first, together }], { seed, noiseDb: -70 }), options: first };
}

/** The swing at the wheel's own phase that pitch and level of a synthesised string really had, random movement included. */
export function trueSwing(
  string: BowedString,
  fromSeconds: number,
  toSeconds: number,
  rateHz: number,
): TrueSwing {
  const step = 0.02;
  const count = Math.floor((toSeconds - fromSeconds) / step);
  const at = (m: number) => Math.round((fromSeconds + m * step) * rateHz);
  const turn = Float64Array.from({ length: count }, (_, m) => 2 * Math.PI * string.turns[at(m + 0.5)]);
  const place = Float64Array.from({ length: count }, (_, m) => (2 * m) / count - 1);
  const columns = [
    new Float64Array(count).fill(1),
    place,
    place.map((value) => value * value),
    turn.map(Math.cos),
    turn.map(Math.sin),
  ];
  const pitch = Float64Array.from({ length: count }, (_, m) =>
    cents(
      string.pitch.meanHz(fromSeconds + m * step, fromSeconds + (m + 1) * step),
      string.pitch.underlyingHz,
    ),
  );
  const level = Float64Array.from({ length: count }, (_, m) => string.levelDb?.[at(m + 0.5)] ?? 0);
  const [p, l] = [pitch, level].map((values) => leastSquares(columns, values)!);
  const last = string.turns[at(count)] - string.turns[at(0)];
  return {
    turnsPerSecond: last / (count * step),
    pitchCents: Math.hypot(p[3], p[4]),
    levelDb: Math.hypot(l[3], l[4]),
    pitchPhase: Math.atan2(p[4], p[3]),
    levelPhase: Math.atan2(l[4], l[3]),
  };
}
