import { describe, expect, it } from "vitest";
import { checkRecording } from "../../src/audio/checkRecording.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { lowPassed } from "./lowPassed.js";
import { type NoiseColour, noise, quantised, uniformSource } from "./syntheticTake.js";

const NOTE_SECONDS = 0.8;
const PAUSE_SECONDS = 0.3;

interface Plan {
  readonly rateHz: number;
  readonly seed: number;
  readonly colour?: NoiseColour;
  readonly noiseDb?: number;
  /** The strings have no partial beyond this. */
  readonly highestHz?: number;
  /** How much more than 1/n the partials fall above 1 kHz, in dB per octave. */
  readonly tiltDb?: number;
}

/** A low and a high string one after another in noise, about as strong as that of rosin (40 to 60 dB below the strings). */
function takeOf({ rateHz, seed, colour = "white", noiseDb = -65, highestHz, tiltDb = 3 }: Plan) {
  const uniform = uniformSource(seed);
  const samples = noise(
    colour,
    Math.round((2 * NOTE_SECONDS + 3 * PAUSE_SECONDS) * rateHz),
    10 ** (noiseDb / 20),
    seed,
  );
  const notes = [97.999, 195.998].map((nominalHz, k) => {
    const startSeconds = PAUSE_SECONDS + k * (NOTE_SECONDS + PAUSE_SECONDS);
    const frequencyHz = nominalHz * (1 + 0.01 * (uniform() - 0.5));
    const partialAmplitudes = Array.from(
      { length: Math.floor((highestHz ?? rateHz) / frequencyHz) },
      (_, n) =>
        (0.15 / (n + 1)) * 10 ** ((-tiltDb / 20) * Math.max(0, Math.log2(((n + 1) * frequencyHz) / 1000))),
    );
    const string = bowedString({
      frequencyHz,
      durationSeconds: NOTE_SECONDS,
      sampleRateHz: rateHz,
      seed: seed + k,
      partialAmplitudes,
      swingCents: 1.5,
      jitterCents: 0.5,
    });
    const first = Math.round(startSeconds * rateHz);
    for (let i = 0; i < string.samples.length; i++) samples[first + i] += string.samples[i];
    return { startSeconds, endSeconds: startSeconds + NOTE_SECONDS };
  });
  return { samples, notes, rateHz };
}

function limitOf(
  { notes, rateHz }: Pick<ReturnType<typeof takeOf>, "notes" | "rateHz">,
  channels: readonly ArrayLike<number>[],
  bits = 16,
) {
  const recording = memoryRecording(
    channels.map((channel) => quantised(channel, bits)),
    rateHz,
  );
  const { findings } = checkRecording(recording, surveyRecording(recording), notes);
  return findings.find(({ code }) => code === "band-limit");
}

describe("band limit", () => {
  // Where telephone, voice and music codecs and resamplers end (common practice, no source).
  it.each([
    [44_100, 3400],
    [48_000, 7000],
    [44_100, 8000],
    [48_000, 11_000],
    [44_100, 14_000],
    [48_000, 16_000],
    [44_100, 17_000],
    [48_000, 18_000],
    [44_100, 19_000],
    [48_000, 20_000],
    [96_000, 22_000],
  ])("of a %d Hz recording is found at %d Hz", (rateHz, cutoffHz) => {
    const take = takeOf({ rateHz, seed: 31_000 + cutoffHz });
    const found = limitOf(take, [lowPassed(take.samples, rateHz, cutoffHz, 300)]);
    // The filter falls from 150 Hz below to 150 Hz above; one partial of G3 (196 Hz) and one band of 50 Hz on top of it.
    expect(Math.abs(Number(found?.values.cutoffHz) - cutoffHz)).toBeLessThan(150 + 196 + 50);
    expect(Number(found?.values.fallDb)).toBeGreaterThan(25);
    expect(Number(found?.values.widthHz)).toBeLessThanOrEqual(500);
    expect(found?.severity).toBe(cutoffHz < 5000 ? "warning" : "info");
  });

  it("is found where one channel is silent, and with values that are no numbers", () => {
    const take = takeOf({ rateHz: 44_100, seed: 32_001 });
    const limited = lowPassed(take.samples, 44_100, 16_000, 300);
    limited[60_000] = Number.NaN;
    expect(limitOf(take, [limited, new Float64Array(limited.length)])?.values.cutoffHz).toBeGreaterThan(
      15_600,
    );
  });

  it("is not told where the recorder's own filter ends, just below half the sample rate", () => {
    for (const [rateHz, cutoffHz] of [
      [44_100, 20_000],
      [48_000, 21_800],
      [48_000, 22_050],
    ]) {
      const take = takeOf({ rateHz, seed: 32_100 + cutoffHz });
      expect(limitOf(take, [lowPassed(take.samples, rateHz, cutoffHz, 300)])).toBeUndefined();
    }
  });

  it("is not told where partials end by themselves and the noise goes on", () => {
    for (const highestHz of [3500, 5000, 8000]) {
      for (const noiseDb of [-95, -70]) {
        const take = takeOf({
          rateHz: 44_100,
          seed: 32_200 + highestHz - noiseDb,
          highestHz,
          noiseDb,
          tiltDb: 0,
        });
        expect(limitOf(take, [take.samples])).toBeUndefined();
        expect(limitOf(take, [take.samples], 24)).toBeUndefined();
      }
    }
  });

  it("is not told where a limit can't be seen: the sound had sunk into the format's own noise before", () => {
    const take = takeOf({ rateHz: 44_100, seed: 32_300, noiseDb: -110, tiltDb: 24 });
    expect(limitOf(take, [lowPassed(take.samples, 44_100, 16_000, 300)])).toBeUndefined();
  });

  it("is not told of a gentle fall, of eight bits, or of hum and a whistle", () => {
    const take = takeOf({ rateHz: 48_000, seed: 32_400, colour: "white" });
    // Two poles of a microphone or amplifier at 5 kHz, 12 dB an octave.
    const keep = Math.exp((-2 * Math.PI * 5000) / 48_000);
    let one = 0;
    let two = 0;
    const dull = take.samples.map((value) => {
      one = keep * one + (1 - keep) * value;
      two = keep * two + (1 - keep) * one;
      return two;
    });
    const withLines = take.samples.map(
      (value, i) =>
        value +
        0.01 * Math.sin((2 * Math.PI * 50 * i) / 48_000) +
        0.003 * Math.sin((2 * Math.PI * 15_734 * i) / 48_000),
    );
    expect(limitOf(take, [dull])).toBeUndefined();
    expect(limitOf(take, [dull], 24)).toBeUndefined();
    expect(limitOf(take, [take.samples], 8)).toBeUndefined();
    expect(limitOf(take, [withLines])).toBeUndefined();
  });

  it("is not judged where no note is long enough", () => {
    const take = takeOf({ rateHz: 44_100, seed: 32_500 });
    const limited = lowPassed(take.samples, 44_100, 16_000, 300);
    const short = { rateHz: 44_100, notes: [{ startSeconds: 0.6, endSeconds: 0.7 }] };
    expect(limitOf(short, [limited])).toBeUndefined();
    expect(limitOf({ rateHz: 44_100, notes: [] }, [limited])).toBeUndefined();
  });
});
