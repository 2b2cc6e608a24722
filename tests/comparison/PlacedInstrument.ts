import { lowRegister } from "../../src/body/lowRegister.js";
import type { ComparedSide } from "../../src/comparison/Comparison.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyDb, type InventedBody } from "../body/bodyTruth.js";
import { takeOfStrings } from "./takeOfStrings.js";

/** How much one take differs from the next of the same instrument, newly placed: standard deviations in dB. */
export interface PlacingScatter {
  /** Common gain of the recording. */
  readonly gainDb: number;
  /** Tilt of the whole, an octave, about 400 Hz. */
  readonly tiltDb: number;
  /** Of the room's modes at the microphone: smooth in frequency, the same for all strings. */
  readonly roomDb: number;
  /** Strength of each string. */
  readonly stringDb: number;
  /** Of each partial by itself: reading and bowing. */
  readonly partialDb: number;
}

/** C2 G2 C3 G3 D4 G4 (equal temperament, A4 = 440 Hz) with so many partials: beyond them lies a few per cent of a string's power. */
const STRINGS: readonly (readonly [string, number, number])[] = [
  ["C2", 65.4064, 12],
  ["G2", 97.9989, 10],
  ["C3", 130.8128, 9],
  ["G3", 195.9977, 7],
  ["D4", 293.6648, 5],
  ["G4", 391.9954, 4],
];
const PARTIALS = STRINGS.map(([, frequencyHz, count]) =>
  Array.from({ length: count }, (_, i) => ({ number: i + 1, hz: (i + 1) * frequencyHz })),
);

/** The room: a Gaussian bell of random height every third of an octave from 40 Hz, a third of an octave wide. */
const BELLS = 24;
const BELL_SHARES = PARTIALS.map((partials) =>
  partials.map(({ hz }) => {
    const bells = Array.from({ length: BELLS }, (_, i) => Math.exp(-((3 * Math.log2(hz / 40) - i) ** 2) / 2));
    const size = Math.hypot(...bells);
    return bells.map((bell) => bell / size);
  }),
);

/** Ideally bowed strings (1/n) on an invented body, recorded in takes that are each newly placed. */
export class PlacedInstrument {
  private readonly plainDb: number[][];

  constructor(body: InventedBody) {
    this.plainDb = PARTIALS.map((partials) =>
      partials.map(({ number, hz }) => -30 - 20 * Math.log10(number) + bodyDb(body, hz)),
    );
  }

  /** A take without any scatter. */
  plainTake(): TakeReading {
    return takeOf(this.plainDb);
  }

  take(scatter: PlacingScatter, random: SeededRandom): TakeReading {
    return takeOf(this.levelsDb(scatter, random));
  }

  side(name: string, takeCount: number, scatter: PlacingScatter, random: SeededRandom): ComparedSide {
    return { name, takes: Array.from({ length: takeCount }, () => this.take(scatter, random)) };
  }

  /** What the low register of a take comes to on average over many placings. */
  longRunLowRegisterDb(
    scatter: PlacingScatter,
    placings: number,
    edgeHz: number,
    random: SeededRandom,
  ): number {
    let sum = 0;
    for (let i = 0; i < placings; i++) {
      const energies = this.levelsDb(scatter, random).flatMap((levels, string) =>
        levels.map((levelDb, k) => ({ frequencyHz: PARTIALS[string][k].hz, power: 10 ** (levelDb / 10) })),
      );
      sum += lowRegister(energies, edgeHz).lowRegisterDb!;
    }
    return sum / placings;
  }

  private levelsDb(scatter: PlacingScatter, random: SeededRandom): number[][] {
    const gain = random.normal(scatter.gainDb);
    const tilt = random.normal(scatter.tiltDb);
    const room = Array.from({ length: BELLS }, () => random.normal(scatter.roomDb));
    return this.plainDb.map((levels, string) => {
      const strength = gain + random.normal(scatter.stringDb);
      return levels.map((levelDb, k) => {
        const shares = BELL_SHARES[string][k];
        let placed = levelDb + strength + tilt * Math.log2(PARTIALS[string][k].hz / 400);
        for (let i = 0; i < BELLS; i++) placed += room[i] * shares[i];
        return placed + random.normal(scatter.partialDb);
      });
    });
  }
}

function takeOf(levelsDb: readonly (readonly number[])[]): TakeReading {
  return takeOfStrings(
    STRINGS.map(([name, frequencyHz], i) => ({ name, frequencyHz, partialsDb: levelsDb[i] })),
  );
}

/** Numbers of takes on the two sides, equal and not. */
export const TAKE_COUNTS: readonly (readonly [number, number])[] = [
  [3, 3],
  [4, 4],
  [5, 5],
  [6, 6],
  [3, 5],
  [6, 4],
];

/** 0.5 to 1.5 dB of room modes, half of that as tilt, some gain, and strings bowed now harder, now softer. */
export function randomScatter(random: SeededRandom): PlacingScatter {
  const roomDb = random.uniform(0.5, 1.5);
  return { gainDb: 2, tiltDb: roomDb / 2, roomDb, stringDb: 0.5, partialDb: 0.3 };
}

/** In per cent, as it is printed. */
export function percentOf<T>(cases: readonly T[], holds: (one: T) => boolean): string {
  return `${((100 * cases.filter(holds).length) / cases.length).toFixed(1)} %`;
}
