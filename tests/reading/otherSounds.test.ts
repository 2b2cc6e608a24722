import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import type { StringTarget } from "../../src/instrument/Instrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import { movedHz } from "../strings/handMadePassage.js";
import { bowedTake, codesOf, NOTE_HZ, recordingOf, seriousFindings, whiteNoise } from "./bowedTake.js";

/** Sound that is no string bowed alone: nothing of it may pass for a sure reading. */
const RATE_HZ = 8000;
const { C2, G2, C3, G3, G4 } = NOTE_HZ;
const altoThree = stringTargets(findTuning("alto-three"));

function readNotes(samples: Float32Array): TakeReading {
  return measureTake(memoryRecording([samples], RATE_HZ), { targets: null, a4Hz: 440 });
}

/** Readings that carry no warning of their own, in a take that has none either. */
function sureReadings(reading: TakeReading): string[] {
  if (reading.findings.some(({ severity }) => severity !== "info")) return [];
  return reading.strings
    .filter(({ status, findings }) => status === "measured" && findings.every((f) => f.severity === "info"))
    .map(({ name, frequencyHz }) => `${name} ${frequencyHz}`);
}

describe("noise", () => {
  it.each([-20, -40, -70])("of %d dB has no passage", (levelDb) => {
    for (let seed = 1; seed <= 3; seed++) {
      const reading = readNotes(whiteNoise(6 * RATE_HZ, levelDb, 700 + seed));
      expect(reading.strings).toEqual([]);
      expect(reading.lowRegister).toBeNull();
      expect(reading.referencePitch).toBeNull();
      expect(codesOf(reading.findings)).toContain("no-passage");
    }
  });

  it("in bursts like speech gives no sure reading", () => {
    // Syllables of 80 to 250 ms: noise with a rising and falling envelope, or a glide of 20 partials from 90 to 220 Hz.
    const random = new SeededRandom(71);
    const samples = whiteNoise(12 * RATE_HZ, -75, 72);
    let at = RATE_HZ;
    while (at < 11 * RATE_HZ) {
      const length = Math.round(random.uniform(0.08, 0.25) * RATE_HZ);
      const voiced = random.uniform() < 0.6;
      const [fromHz, toHz] = [random.uniform(90, 220), random.uniform(90, 220)];
      let phase = 0;
      for (let i = 0; i < length; i++) {
        const envelope = Math.sin((Math.PI * i) / length);
        phase += (fromHz + ((toHz - fromHz) * i) / length) / RATE_HZ;
        let value = voiced ? 0 : random.normal(0.05);
        for (let n = 1; voiced && n <= 15; n++) value += (0.08 / n) * Math.sin(2 * Math.PI * n * phase);
        samples[at + i] += envelope * value;
      }
      at += length + Math.round(random.uniform(0.02, 0.15) * RATE_HZ);
    }
    const reading = readNotes(samples);
    expect(sureReadings(reading)).toEqual([]);
    expect(seriousFindings(reading).length).toBeGreaterThan(0);
  });
});

describe("what is no string", () => {
  it.each([
    ["slowly, a click a second", 1],
    ["quickly, seven a second", 7],
  ])("clicks %s: no sure reading", (_, perSecond) => {
    const random = new SeededRandom(73);
    const samples = whiteNoise(10 * RATE_HZ, -80, 74);
    for (let t = 1; t < 9; t += 1 / (perSecond * random.uniform(0.8, 1.2))) {
      const at = Math.round(t * RATE_HZ);
      for (let i = 0; i < 80; i++) samples[at + i] += 0.5 * Math.exp(-i / 12) * random.normal();
    }
    expect(sureReadings(readNotes(samples))).toEqual([]);
  });

  it.each([
    ["three octaves in 10 s", 60, 480],
    ["an octave in 10 s", 110, 220],
    ["a tone in 10 s", 196, 220],
  ])("a sine that sweeps %s: no sure reading", (_, fromHz, toHz) => {
    const samples = whiteNoise(12 * RATE_HZ, -80, 75);
    let phase = 0;
    for (let i = 0; i < 10 * RATE_HZ; i++) {
      phase += (fromHz * (toHz / fromHz) ** (i / (10 * RATE_HZ))) / RATE_HZ;
      samples[RATE_HZ + i] += 0.2 * Math.sin(2 * Math.PI * phase);
    }
    const reading = readNotes(samples);
    expect(sureReadings(reading)).toEqual([]);
    expect(seriousFindings(reading).length).toBeGreaterThan(0);
  });
});

describe("strings that sound together", () => {
  const read = (frequencies: readonly number[], targets: readonly StringTarget[] | null) => {
    const [first, ...others] = frequencies.map((frequencyHz) => ({ frequencyHz }));
    const take = bowedTake([{ ...first, together: others }], { sampleRateHz: RATE_HZ, seed: 76 });
    return measureTake(recordingOf(take), { targets, a4Hz: 440 });
  };
  const mixtures: readonly (readonly [string, readonly number[], readonly string[]])[] = [
    ["a fifth, C3 and G3", [C3, G3], ["C3", "G3"]],
    ["a fifth, C2 and G2", [C2, movedHz(G2, 4)], ["C2", "G2"]],
    ["a fifth and an octave, C3, G3 and G4", [C3, movedHz(G3, 2), movedHz(G4, -2)], ["C3", "G3", "G4"]],
    ["three drones", [C2, movedHz(G2, 2), movedHz(C3, 4)], ["C2", "G2", "C3"]],
    ["an octave, C2 and C3", [movedHz(C2, 2), movedHz(C3, 6)], ["C2", "C3"]],
    ["an octave, G3 and G4", [G3, movedHz(G4, -4)], ["G3", "G4"]],
  ];

  it.each(mixtures)("%s: each is named and read", (_, frequencies, names) => {
    const reading = read(frequencies, altoThree);
    const found = reading.strings.filter(({ status }) => status === "measured");
    expect(found.map(({ name }) => name)).toEqual(names);
    // 0.5 cents: the pitch beneath differs from the mean of this passage by up to 0.3.
    for (const [i, { frequencyHz }] of found.entries()) {
      expect(Math.abs(cents(frequencyHz!, frequencies[i]))).toBeLessThan(0.5);
    }
    expect(reading.pairs.length).toBeGreaterThan(0);
    expect(reading.pairs.every(({ basis }) => basis === "measured")).toBe(true);
  });

  it.each([
    ...mixtures.filter(([, frequencies]) => frequencies.length > 2 || frequencies[1] / frequencies[0] < 1.9),
    ["a unison 3 cents apart", [G4, movedHz(G4, 3)], []] as const,
    ["a unison 8 cents apart", [G3, movedHz(G3, 8)], []] as const,
  ])("%s, without an instrument: a warning, and no sure reading", (_, frequencies) => {
    const reading = read(frequencies, null);
    expect(seriousFindings(reading).length).toBeGreaterThan(0);
    expect(sureReadings(reading)).toEqual([]);
  });

  it("of which the instrument has only one give no sure reading of it", () => {
    const reading = read([G3, movedHz(G3, 8)], altoThree);
    expect(sureReadings(reading).filter((line) => line.startsWith("G3"))).toEqual([]);
  });

  it("do not spoil the string that sounds alone after them", () => {
    const take = bowedTake([{ frequencyHz: C3, together: [{ frequencyHz: G3 }] }, { frequencyHz: G4 }], {
      sampleRateHz: RATE_HZ,
      seed: 78,
    });
    const reading = measureTake(recordingOf(take), { targets: altoThree, a4Hz: 440 });
    const found = reading.strings.filter(({ status }) => status === "measured");
    expect(found.map(({ name }) => name)).toEqual(["C3", "G3", "G4"]);
    expect(Math.abs(cents(found[2].frequencyHz!, G4))).toBeLessThan(0.5);
    const [first, second] = reading.passages;
    expect([first.strings, second.strings]).toEqual([["C3", "G3"], ["G4"]]);
  });
});

describe("mains hum", () => {
  /** A take whose first string is a drone of interest, and the same with hum so far below that drone. */
  function withHum(humHz: number, frequencyHz: number, humDb: number) {
    const take = bowedTake(
      [frequencyHz, C2, G3].map((hz) => ({ frequencyHz: hz })),
      { sampleRateHz: RATE_HZ, seed: 79 },
    );
    const clean = readNotes(take.samples);
    const hummed = take.samples.slice();
    addHum(hummed, humHz, clean.strings[0].levelDb! + humDb);
    return { clean, hummed: readNotes(hummed) };
  }

  function addHum(samples: Float32Array, humHz: number, levelDb: number): void {
    // Eight lines at 1/k: their powers add up to 1.527 times that of the first.
    const first = Math.sqrt(10 ** (levelDb / 10) / 1.527);
    for (let i = 0; i < samples.length; i++) {
      for (let k = 1; k <= 8; k++)
        samples[i] += (first / k) * Math.sin((2 * Math.PI * humHz * k * i) / RATE_HZ + k);
    }
  }

  it.each([
    // G2 lies at 98.0 Hz, 2 Hz from the second line of 50 Hz; B2 flat at 121 Hz, 1 Hz from that of 60 Hz.
    [50, G2, -15],
    [50, G2, -20],
    [50, G2, -30],
    [60, 121, -20],
    [60, 121, -30],
  ])(
    "of %d Hz beside a drone on %f Hz, %d dB from it, does not move its pitch",
    (humHz, frequencyHz, humDb) => {
      const { clean, hummed } = withHum(humHz, frequencyHz, humDb);
      expect(codesOf(hummed.findings)).toContain("mains-hum");
      expect(hummed.strings.map(({ name }) => name)).toEqual(clean.strings.map(({ name }) => name));
      expect(codesOf(hummed.strings[0].findings)).toContain("hum-near-partial");
      for (const [s, string] of hummed.strings.entries()) {
        // A twentieth of a cent, a quarter of what an interval of 4 s usually leaves.
        expect(Math.abs(cents(string.frequencyHz!, clean.strings[s].frequencyHz!))).toBeLessThan(0.05);
      }
    },
  );

  it("10 dB below a drone: what is read is true, the rest is warned of", () => {
    const { clean, hummed } = withHum(50, G2, -10);
    expect(sureReadings(hummed)).toEqual([]);
    for (const { name, frequencyHz } of clean.strings) {
      for (const string of hummed.strings.filter((one) => one.name === name)) {
        expect(Math.abs(cents(string.frequencyHz!, frequencyHz!))).toBeLessThan(0.05);
      }
    }
  });

  it.each([
    ["of the instrument", altoThree],
    ["of any kind", null],
  ])("alone is no string %s", (_, targets) => {
    const samples = whiteNoise(8 * RATE_HZ, -80, 80);
    addHum(samples, 50, -30);
    const reading = measureTake(memoryRecording([samples], RATE_HZ), { targets, a4Hz: 440 });
    expect(reading.strings.every(({ status }) => status === "not-heard")).toBe(true);
    expect(codesOf(reading.findings)).toEqual(expect.arrayContaining(["mains-hum", "no-passage"]));
  });
});

it("a take of nothing but pause says that it has no passage", () => {
  expect(codesOf(readNotes(whiteNoise(3 * RATE_HZ, -60, 81)).findings)).toContain("no-passage");
});
