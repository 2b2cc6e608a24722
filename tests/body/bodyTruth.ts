import { thirdOctaveBands } from "../../src/body/bandEdges.js";
import type { StringPartial } from "../../src/body/StringPartial.js";
import { median } from "../../src/signal/median.js";
import type { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { type BodyResonance, bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";

/** An invented sound box. */
export interface InventedBody {
  readonly resonances: readonly BodyResonance[];
  readonly lowestModeHz: number;
}

/** How its strings differ from each other and from the model. */
export interface StringScatter {
  readonly slopeDb: number;
  readonly partialDb: number;
  /** Share of partials that are not heard. */
  readonly missing: number;
}

/** C2 G2 C3 G3 D4 G4; G2 C3 G3 C4 D4 G4; a major scale from C3 on, over C2 and G2. Equal temperament, A4 = 440 Hz. */
export const stringSets: Readonly<Record<string, readonly number[]>> = {
  alto: [65.4064, 97.9989, 130.8128, 195.9977, 293.6648, 391.9954],
  soprano: [97.9989, 130.8128, 195.9977, 261.6256, 293.6648, 391.9954],
  scale: [65.4064, 97.9989, ...[0, 2, 4, 5, 7, 9, 11].map((semitones) => 130.8128 * 2 ** (semitones / 12))],
};

/** Gain of the body in dB: what it makes of partial 1 of a string at this frequency. */
export function bodyDb({ resonances, lowestModeHz }: InventedBody, frequencyHz: number): number {
  return 20 * Math.log10(bodyAmplitudes(frequencyHz, 1, 1, resonances, lowestModeHz)[0]);
}

/** The true curve: mean gain in dB over log frequency in each third-octave band, relative to the median of 400 to 1250 Hz. */
export function trueCurve(body: InventedBody): number[] {
  const samples = 64;
  const means = thirdOctaveBands.map(({ lowerHz, upperHz }) => {
    let sum = 0;
    for (let i = 0; i < samples; i++)
      sum += bodyDb(body, lowerHz * (upperHz / lowerHz) ** ((i + 0.5) / samples));
    return sum / samples;
  });
  const reference = median(
    means.filter((_, i) => thirdOctaveBands[i].nominalHz >= 400 && thirdOctaveBands[i].nominalHz <= 1250),
  );
  return means.map((value) => value - reference);
}

/** A body with random modes: Q 4 to 18, 2 to 9 dB high, and a lowest mode at 70 to 200 Hz. */
export function randomBody(random: SeededRandom): InventedBody {
  const count = Math.floor(random.uniform(5, 12));
  return {
    resonances: Array.from({ length: count }, () => ({
      frequencyHz: Math.exp(random.uniform(Math.log(80), Math.log(3000))),
      q: random.uniform(4, 18),
      gainDb: random.uniform(2, 9),
    })),
    lowestModeHz: Math.exp(random.uniform(Math.log(70), Math.log(200))),
  };
}

/** Partials of strings of random strength (6 dB) and tuning (a few cents) on a body, from 44.7 to 2818 Hz. */
export function partialsOn(
  body: InventedBody,
  fundamentalsHz: readonly number[],
  { slopeDb, partialDb, missing }: StringScatter,
  random: SeededRandom,
): StringPartial[] {
  return fundamentalsHz.flatMap((nominalHz, index) => {
    const fundamentalHz = nominalHz * 2 ** (random.normal(2) / 1200);
    const strengthDb = -30 + random.normal(6);
    const slope = random.normal(slopeDb);
    const count = Math.floor(2818 / fundamentalHz);
    return bodyAmplitudes(fundamentalHz, count, 1, body.resonances, body.lowestModeHz).flatMap(
      (amplitude, i) => {
        const number = i + 1;
        const levelDb =
          20 * Math.log10(amplitude) + strengthDb + slope * Math.log2(number) + random.normal(partialDb);
        return random.uniform() < missing
          ? []
          : [
              {
                string: `string ${index}`,
                number,
                frequencyHz: number * fundamentalHz,
                levelDb,
                signalToNoiseDb: 40,
              },
            ];
      },
    );
  });
}
