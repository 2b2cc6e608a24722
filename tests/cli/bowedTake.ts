import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { encodeWav } from "../../src/wav/encodeWav.js";

const PAUSE_SECONDS = 1.5;
const NOTE_SECONDS = 5;

/** A WAV file of strings bowed one after another in a quiet room, with partials up to 10 kHz, as 16-bit PCM. */
export function bowedTake(frequenciesHz: readonly number[], seed: number, sampleRateHz = 44_100): Uint8Array {
  const random = new SeededRandom(seed);
  const seconds = frequenciesHz.length * (NOTE_SECONDS + PAUSE_SECONDS) + PAUSE_SECONDS;
  const samples = Float32Array.from({ length: Math.round(seconds * sampleRateHz) }, () =>
    random.normal(5e-5),
  );
  for (const [index, frequencyHz] of frequenciesHz.entries()) {
    const string = bowedString({
      frequencyHz,
      durationSeconds: NOTE_SECONDS,
      sampleRateHz,
      seed: seed + index + 1,
      partialAmplitudes: bodyAmplitudes(frequencyHz, Math.floor(10_000 / frequencyHz), 0.2, [], 0),
      swingCents: 1,
      jitterCents: 0.5,
      levelSwingDb: 0.5,
    });
    const from = Math.round((PAUSE_SECONDS + index * (NOTE_SECONDS + PAUSE_SECONDS)) * sampleRateHz);
    for (const [i, value] of string.samples.entries()) samples[from + i] += value;
  }
  return encodeWav([samples], sampleRateHz, "16");
}
