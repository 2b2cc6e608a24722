import { lowRegister } from "../../src/body/lowRegister.js";
import type { SoundReading, TakeReading } from "../../src/reading/TakeReading.js";
import type { StringReading } from "../../src/strings/StringReading.js";
import { handMadeString, handMadeTake } from "../report/handMade.js";

/** A string of a made-up take: its pitch, and the level of each of its partials in dB re full scale, null for one not heard. */
export interface StringLevels {
  readonly name: string;
  readonly frequencyHz: number;
  readonly partialsDb: readonly (number | null)[];
  readonly deviationCents?: number;
}

/** The reading of a take from the levels of its partials, without sound: each string by itself, or `together` as one sound. */
export function takeOfStrings(
  strings: readonly StringLevels[],
  given: Partial<TakeReading> & { readonly together?: readonly (readonly string[])[] } = {},
): TakeReading {
  const { together = [], ...rest } = given;
  const joined = new Set(together.flat());
  const names = [...together, ...strings.flatMap(({ name }) => (joined.has(name) ? [] : [[name]]))];
  return handMadeTake({
    passages: [],
    pairs: [],
    lowRegister: null,
    findings: [],
    strings: strings.map(readingOf),
    sounds: names.map(
      (own): SoundReading => ({
        strings: own,
        durationSeconds: 3,
        partials: strings.filter(({ name }) => own.includes(name)).flatMap(energiesOf),
      }),
    ),
    ...rest,
  });
}

function energiesOf({ frequencyHz, partialsDb }: StringLevels) {
  return partialsDb.flatMap((levelDb, i) =>
    levelDb === null ? [] : [{ frequencyHz: (i + 1) * frequencyHz, power: 10 ** (levelDb / 10) }],
  );
}

function readingOf(string: StringLevels): StringReading {
  const energies = energiesOf(string);
  const stringDb = 10 * Math.log10(energies.reduce((sum, { power }) => sum + power, 0));
  const { lowRegisterDb, octaveBandsDb, centroidHz } = lowRegister(energies);
  return handMadeString({
    name: string.name,
    targetHz: string.frequencyHz,
    frequencyHz: string.frequencyHz,
    deviationCents: string.deviationCents ?? 0,
    levelDb: stringDb,
    partials: string.partialsDb.map((levelDb, i) => ({
      number: i + 1,
      frequencyHz: (i + 1) * string.frequencyHz,
      levelDb: levelDb === null ? null : levelDb - stringDb,
      fullScaleDb: levelDb,
      signalToNoiseDb: levelDb === null ? null : 50,
      shared: false,
    })),
    lowRegisterDb,
    octaveBandsDb,
    centroidHz,
  });
}

/** A take of one string whose low register is exactly this: one partial on either side of 177.8 Hz. */
export function takeWithLowPart(lowRegisterDb: number, given: Partial<TakeReading> = {}): TakeReading {
  return takeOfStrings([{ name: "G2", frequencyHz: 100, partialsDb: [-30 + lowRegisterDb, -30] }], given);
}
