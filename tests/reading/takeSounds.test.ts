import { describe, expect, it } from "vitest";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { Fft } from "../../src/signal/Fft.js";
import { addAt, type BowedTake, bowedTake, NOTE_HZ, recordingOf, stringNamed } from "./bowedTake.js";

const RATE = 8000;
const targets = stringTargets(findTuning("alto-three"), { a4Hz: 440 });

/** Energy of the tone alone between two frequencies over a stretch, by Parseval: the take without its noise. */
function bandEnergy(take: BowedTake, fromSeconds: number, toSeconds: number, lowHz: number, highHz: number) {
  const clean = new Float32Array(take.samples.length);
  for (const { startSeconds, string } of take.placed) {
    addAt(clean, string.samples, Math.round(startSeconds * RATE));
  }
  const part = clean.subarray(Math.round(fromSeconds * RATE), Math.round(toSeconds * RATE));
  const fft = new Fft(2 ** Math.ceil(Math.log2(part.length)));
  const input = new Float64Array(fft.size);
  input.set(part);
  const output = new Float64Array(2 * fft.size);
  fft.real(output, input);
  let sum = 0;
  for (let k = 0; k <= fft.size / 2; k++) {
    const hz = (k * RATE) / fft.size;
    if (hz >= lowHz && hz < highHz) sum += output[2 * k] ** 2 + output[2 * k + 1] ** 2;
  }
  return sum;
}

describe("the low register of strings that sound together", () => {
  it.each([
    ["an octave within half a cycle over the passage", [1, 1.0001], ["C2", "C3"]],
    ["an octave and a fifth that share every partial of theirs", [1, 1.00005, 0.99995], ["C2", "G2", "C3"]],
    ["an octave 8 cents off, which can be told apart", [1, 1.0046], ["C2", "C3"]],
  ] as const)("is that of all the tone there is: %s", (_, detunings, names) => {
    // From equal temperament, G2 moved onto the pure fifth over C2.
    const pure = { C2: NOTE_HZ.C2, G2: 1.5 * NOTE_HZ.C2, C3: 2 * NOTE_HZ.C2 };
    const [first, ...others] = names.map((name, i) => ({
      frequencyHz: pure[name] * detunings[i],
      durationSeconds: 7,
    }));
    const take = bowedTake([{ ...first, together: others }], { sampleRateHz: RATE, seed: 71 });
    const reading = measureTake(recordingOf(take), { targets, a4Hz: 440, sounding: [...names] });
    const [sound] = reading.sounds;
    expect(reading.sounds).toHaveLength(1);
    const [{ startSeconds, endSeconds }] = reading.passages;
    const low = bandEnergy(take, startSeconds, endSeconds, 44.7, 177.8);
    const rest = bandEnergy(take, startSeconds, endSeconds, 177.8, 2818.4);
    // Cutting a passage out of a tone smears 0.1 dB of it over the edge; the noise is 50 dB down.
    expect(Math.abs(reading.lowRegister!.lowRegisterDb! - 10 * Math.log10(low / rest))).toBeLessThan(0.15);
    expect(sound.partials.every(({ power }) => power > 0)).toBe(true);
  });

  it("counts each set once, however long it was played, and says which strings were in it", () => {
    const set = { frequencyHz: NOTE_HZ.C2, together: [{ frequencyHz: NOTE_HZ.G2 * 1.004 }] };
    const plan = { sampleRateHz: RATE, seed: 72 };
    const once = bowedTake([set, { frequencyHz: NOTE_HZ.D4 }], plan);
    const often = bowedTake(
      [set, { frequencyHz: NOTE_HZ.D4 }, { frequencyHz: NOTE_HZ.D4 }, { frequencyHz: NOTE_HZ.D4 }],
      plan,
    );
    const [a, b] = [once, often].map((take) => measureTake(recordingOf(take), { targets, a4Hz: 440 }));
    for (const reading of [a, b]) {
      expect(reading.sounds.map(({ strings }) => strings.join("+")).sort()).toEqual(["C2+G2", "D4"]);
    }
    // The same strings bowed anew with the same partials: only noise and the wheel's swing of 0.5 dB differ.
    expect(Math.abs(a.lowRegister!.lowRegisterDb! - b.lowRegister!.lowRegisterDb!)).toBeLessThan(0.1);
    const d4 = b.sounds.find(({ strings }) => strings[0] === "D4")!;
    expect(d4.durationSeconds).toBeGreaterThan(
      2 * a.sounds.find(({ strings }) => strings[0] === "D4")!.durationSeconds,
    );
  });

  it("has, for a string alone, the power that the string's own level says", () => {
    const take = bowedTake([{ frequencyHz: NOTE_HZ.G2 }], { sampleRateHz: RATE, seed: 73 });
    const reading = measureTake(recordingOf(take), { targets, a4Hz: 440 });
    const power = reading.sounds[0].partials.reduce((sum, one) => sum + one.power, 0);
    // The same sums, once as power and once in decibels.
    expect(10 * Math.log10(power)).toBeCloseTo(stringNamed(reading, "G2").levelDb!, 9);
    for (const { levelDb, fullScaleDb } of stringNamed(reading, "G2").partials) {
      if (levelDb === null) expect(fullScaleDb).toBeNull();
      else expect(fullScaleDb).toBeCloseTo(levelDb + stringNamed(reading, "G2").levelDb!, 9);
    }
  });
});
