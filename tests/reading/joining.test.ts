import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedString } from "../../src/synthesis/bowedString.js";
import { cents } from "../../src/units/cents.js";

const RATE = 16_000;
const targets = stringTargets(findTuning("alto-three"), {});

function take(seconds: number, strings: readonly (readonly [hz: number, from: number, to: number])[]) {
  const random = new SeededRandom(81);
  const samples = Float32Array.from({ length: seconds * RATE }, () => random.normal(1e-4));
  for (const [s, [frequencyHz, from, to]] of strings.entries()) {
    const string = bowedString({
      frequencyHz,
      durationSeconds: to - from,
      sampleRateHz: RATE,
      seed: 90 + s,
      partialAmplitudes: bodyAmplitudes(frequencyHz, 80, 0.1, [{ frequencyHz: 265, q: 10, gainDb: 8 }], 100),
      swingCents: 1.2,
      jitterCents: 0.4,
      levelSwingDb: 0.6,
    });
    for (let i = 0; i < string.samples.length; i++) samples[from * RATE + i] += string.samples[i];
  }
  return memoryRecording([samples], RATE);
}

describe("strings that join and leave during a take", () => {
  const recording = take(24, [
    [65.5, 2, 14],
    [98.2, 2, 20],
    [131.3, 7, 20],
    [392.6, 14, 22],
  ]);
  const reading = measureTake(recording, { targets, a4Hz: 440 });

  it("are named in each passage", () => {
    expect(reading.passages.map(({ strings }) => strings.join("+"))).toEqual([
      "C2+G2",
      "C2+G2+C3",
      "G2+C3+G4",
      "G4",
    ]);
  });

  it("are read, each over all its passages", () => {
    const heard = reading.strings.flatMap(({ name, frequencyHz }) =>
      frequencyHz === null ? [] : [{ name, frequencyHz }],
    );
    expect(heard.map(({ name }) => name)).toEqual(["C2", "G2", "C3", "G4"]);
    // The mean of a passage differs from the pitch beneath by up to 0.3 cents of swing and jitter.
    for (const [i, hz] of [65.5, 98.2, 131.3, 392.6].entries()) {
      expect(Math.abs(cents(heard[i].frequencyHz, hz))).toBeLessThan(0.4);
    }
  });

  it("give measured pairs with the beats that their pitches make", () => {
    const fifth = reading.pairs.find(({ lower, upper }) => lower === "C2" && upper === "G2");
    expect(fifth).toMatchObject({ ratio: "3:2", basis: "measured" });
    // 3 * 65.5 - 2 * 98.2 = 0.1 Hz; the two pitches are good to 0.1 cent each, 0.02 Hz at the common partial.
    expect(fifth!.beatsPerSecond).toBeGreaterThan(0.07);
    expect(fifth!.beatsPerSecond).toBeLessThan(0.13);
    expect(fifth!.interval95Cents![0]).toBeLessThan(cents(98.2 * 2, 65.5 * 3));
    expect(fifth!.interval95Cents![1]).toBeGreaterThan(cents(98.2 * 2, 65.5 * 3));
  });

  it("have no level where a partial falls on another string's", () => {
    const [low] = reading.strings;
    // Partial 3 of C2 and partial 2 of G2 lie 0.1 Hz apart: under half a cycle in 5 s.
    expect(low.partials[2]).toMatchObject({ number: 3, shared: true, levelDb: null });
    expect(low.levelDb).toBeNull();
    expect(low.lowRegisterDb).toBeNull();
  });
});

describe("strings named as sounding together", () => {
  it("are looked for, and no others", () => {
    const reading = measureTake(
      take(12, [
        [98.2, 2, 10],
        [196.7, 2, 10],
      ]),
      { targets, a4Hz: 440, sounding: ["G2", "G3"] },
    );
    const heard = reading.strings.filter(({ status }) => status === "measured");
    expect(heard.map(({ name }) => name)).toEqual(["G2", "G3"]);
    expect(Math.abs(cents(heard[0].frequencyHz!, 98.2))).toBeLessThan(0.4);
    expect(Math.abs(cents(heard[1].frequencyHz!, 196.7))).toBeLessThan(0.4);
  });

  it("that do not sound are not heard, or may be hidden; never read", () => {
    const reading = measureTake(
      take(12, [
        [98.2, 2, 10],
        [131, 2, 10],
      ]),
      { targets, a4Hz: 440, sounding: ["C2", "G2", "C3", "D4"] },
    );
    const status = Object.fromEntries(reading.strings.map((string) => [string.name, string.status]));
    // C2 would have partials of its own (1, 5, 7); all of D4's fall on every third of G2's.
    expect(status).toMatchObject({ C2: "not-heard", G2: "measured", C3: "measured", D4: "unresolved" });
  });

  it.each([
    ["C2 where only C3 sounds", ["C2"], [131]],
    ["G3 where only C2 sounds", ["G3"], [65.5]],
    ["C3 where only C2 sounds", ["C3"], [65.5]],
    ["D4 and G4 where only G2 sounds", ["D4", "G4"], [98.2]],
    ["C2 and G2 where only C3 sounds", ["C2", "G2"], [131]],
    ["C2 where only G2 sounds", ["C2"], [98.2]],
  ] as const)("wrongly, %s, are not read", (_, sounding, heardHz) => {
    const recording = take(
      12,
      heardHz.map((hz) => [hz, 2, 10] as const),
    );
    const reading = measureTake(recording, { targets, a4Hz: 440, sounding });
    expect(reading.strings.filter(({ status }) => status === "measured").map(({ name }) => name)).toEqual([]);
    expect(reading.findings.some(({ severity }) => severity !== "info")).toBe(true);
  });

  it("go by the first of several strings with the same target", () => {
    const soprano = stringTargets(findTuning("soprano"), {});
    const recording = take(12, [
      [130.9, 2, 10],
      [392.2, 2, 10],
    ]);
    const reading = measureTake(recording, { targets: soprano, a4Hz: 440 });
    const heard = reading.strings.filter(({ status }) => status === "measured");
    expect(heard.map(({ name }) => name)).toEqual(["C3", "G4"]);
  });

  it("are read in a take that begins and ends in the middle of the sound", () => {
    const reading = measureTake(
      take(8, [
        [98.2, 0, 8],
        [131.2, 0, 8],
      ]),
      { targets, a4Hz: 440 },
    );
    expect(reading.passages.map(({ strings }) => strings.join("+"))).toEqual(["G2+C3"]);
  });

  it.each([
    // At partial 14 of G3, over the 2.5 s and 5.5 s that are left of the sound once its ends are cut off.
    ["coincide", 0, 3],
    ["go through half a cycle", 0.015, 3],
    ["coincide for longer", 0, 6],
    ["go through three quarters of a cycle", 0.01, 6],
  ])("are unresolved where their partials %s", (_, apartHz, seconds) => {
    const reading = measureTake(
      take(seconds + 4, [
        [98.2, 2, 2 + seconds],
        [2 * 98.2 + apartHz, 2, 2 + seconds],
      ]),
      { targets, a4Hz: 440, sounding: ["G2", "G3"] },
    );
    const upper = reading.strings.find(({ name }) => name === "G3")!;
    expect(upper).toMatchObject({ status: "unresolved", frequencyHz: null, deviationCents: null });
    expect(["not-separable", "hidden-under"]).toContain(upper.findings[0].code);
    expect(Number(upper.findings[0].values.neededSeconds)).toBeGreaterThan(2.5);
    expect(reading.strings.find(({ name }) => name === "G2")!.status).toBe("measured");
  });
});

describe("two strings of one note, bowed together", () => {
  const pair = stringTargets(findTuning("unison-pair"), {});
  const G4 = 391.9954;
  const apart = (cents: number) => G4 * 2 ** (cents / 1200);
  const heardOf = (reading: ReturnType<typeof measureTake>) =>
    reading.strings.filter(({ status }) => status === "measured");

  it.each([0.3, 1, 3, 8])("are both read %s cents apart", (distanceCents) => {
    const recording = take(12, [
      [G4, 2, 10],
      [apart(distanceCents), 2, 10],
    ]);
    const reading = measureTake(recording, { targets: pair, a4Hz: 440 });
    const heard = heardOf(reading);
    expect(heard.map(({ name }) => name)).toEqual(["G4", "G4 2"]);
    // The mean of 7.5 s differs from the pitch beneath by less than 0.1 cent of swing and jitter.
    expect(Math.abs(cents(heard[0].frequencyHz!, G4))).toBeLessThan(0.15);
    expect(Math.abs(cents(heard[1].frequencyHz!, apart(distanceCents)))).toBeLessThan(0.15);
    // 0.15 cent of each at 392 Hz: 0.05 beats a second.
    const [beats] = reading.pairs.filter(({ ratio }) => ratio === "1:1");
    expect(Math.abs(beats.beatsPerSecond - (apart(distanceCents) - G4))).toBeLessThan(0.05);
    expect(reading.findings.map(({ code }) => code)).toContain("equal-together");
  });

  it("are read over drones whose partials fall on theirs", () => {
    const recording = take(12, [
      [98.05, 2, 10],
      [196.4, 2, 10],
      [G4, 2, 10],
      [apart(3), 2, 10],
    ]);
    const heard = heardOf(measureTake(recording, { targets: pair, a4Hz: 440 }));
    expect(heard.map(({ name }) => name)).toEqual(["G2", "G3", "G4", "G4 2"]);
    for (const [i, hz] of [98.05, 196.4, G4, apart(3)].entries()) {
      expect(Math.abs(cents(heard[i].frequencyHz!, hz))).toBeLessThan(0.15);
    }
  });

  it("are not seen where there is one, however its level and pitch swing with the wheel", () => {
    const random = new SeededRandom(82);
    const samples = Float32Array.from({ length: 12 * RATE }, () => random.normal(1e-4));
    const string = bowedString({
      frequencyHz: G4,
      durationSeconds: 8,
      sampleRateHz: RATE,
      seed: 99,
      partialAmplitudes: bodyAmplitudes(G4, 80, 0.1, [{ frequencyHz: 265, q: 10, gainDb: 8 }], 100),
      swingCents: 4,
      levelSwingDb: 3,
      jitterCents: 0.4,
    });
    for (let i = 0; i < string.samples.length; i++) samples[2 * RATE + i] += string.samples[i];
    const reading = measureTake(memoryRecording([samples], RATE), {
      targets: pair,
      a4Hz: 440,
      sounding: ["G4", "G4 2"],
    });
    expect(heardOf(reading).map(({ name }) => name)).toEqual(["G4"]);
    const second = reading.strings.find(({ name }) => name === "G4 2")!;
    expect(second.status).toBe("unresolved");
    // Seven partials under 2,900 Hz and 1.5 cycles in 7.45 s: 0.029 Hz, 0.13 cent.
    expect(second.findings[0]).toMatchObject({ code: "unison-locked", values: { other: "G4" } });
    expect(Number(second.findings[0].values.withinCents)).toBeCloseTo(0.127, 2);
  });

  it("are both seen where their beat keeps time with the wheel", () => {
    // Beats at 1.4 a second, the turn rate of the synthesis, and levels alike: one string whose strength swings looks so.
    const recording = take(12, [
      [G4, 2, 10],
      [G4 + 1.4, 2, 10],
    ]);
    const heard = heardOf(measureTake(recording, { targets: pair, a4Hz: 440 }));
    expect(heard.map(({ name }) => name)).toEqual(["G4", "G4 2"]);
    expect(Math.abs(cents(heard[1].frequencyHz!, G4 + 1.4))).toBeLessThan(0.15);
  });

  it("are named for what they are where the tuning has one of that note", () => {
    const recording = take(12, [
      [G4, 2, 10],
      [apart(3), 2, 10],
    ]);
    const reading = measureTake(recording, { targets, a4Hz: 440 });
    expect(heardOf(reading)).toEqual([]);
    const twin = reading.findings.find(({ code }) => code === "twin-strings")!;
    expect(Math.abs(cents(Number(twin.values.lowerHz), G4))).toBeLessThan(0.2);
    expect(Math.abs(cents(Number(twin.values.upperHz), apart(3)))).toBeLessThan(0.2);
  });
});

describe("hum under strings that sound together", () => {
  it("is taken for no string, and hides none", () => {
    const quiet = take(12, [
      [130.9, 3, 11],
      [196.4, 3, 11],
      [392.5, 3, 11],
    ]);
    const [samples] = quiet.read(0, quiet.frameCount);
    // 50 Hz and two overtones, the first about 12 dB under the sum of the strings, in the pauses as well.
    const hummed = samples.map((value, i) => {
      const angle = (2 * Math.PI * 50 * i) / RATE;
      return value + 0.03 * Math.sin(angle) + 0.01 * Math.sin(2 * angle + 1) + 0.01 * Math.sin(3 * angle + 2);
    });
    const reading = measureTake(memoryRecording([hummed], RATE), { targets, a4Hz: 440 });
    const heard = reading.strings.filter(({ status }) => status === "measured");
    expect(heard.map(({ name }) => name)).toEqual(["C3", "G3", "G4"]);
    for (const [i, hz] of [130.9, 196.4, 392.5].entries()) {
      expect(Math.abs(cents(heard[i].frequencyHz!, hz))).toBeLessThan(0.3);
    }
    expect(reading.findings.map(({ code }) => code)).toContain("mains-hum");
    expect(reading.findings.map(({ code }) => code)).not.toContain("twin-strings");
  });
});

describe("a sound that is none of the strings", () => {
  const E4 = 335;

  it("is told with its frequency, beside strings that are read right all the same", () => {
    // A melody string 230 cents over D4: between all targets of the tuning.
    const reading = measureTake(
      take(12, [
        [65.5, 2, 10],
        [98.2, 2, 10],
        [131.3, 2, 10],
        [E4, 2, 10],
      ]),
      { targets, a4Hz: 440 },
    );
    const heard = reading.strings.filter(({ status }) => status === "measured");
    expect(heard.map(({ name }) => name)).toEqual(["C2", "G2", "C3"]);
    // The mean of a passage differs from the pitch beneath by up to 0.3 cents of swing and jitter.
    for (const [i, hz] of [65.5, 98.2, 131.3].entries()) {
      expect(Math.abs(cents(heard[i].frequencyHz!, hz))).toBeLessThan(0.4);
    }
    const [other] = reading.strings[0].findings.filter(({ code }) => code === "other-sound");
    // One of its partials; bins are 2 Hz.
    const ratio = Number(other.values.frequencyHz) / E4;
    expect(Math.abs(ratio - Math.round(ratio)) * E4).toBeLessThan(3);
  });

  it("is told with its frequency where nothing can be read for it", () => {
    const reading = measureTake(
      take(12, [
        [98.2, 2, 10],
        [E4, 2, 10],
        [441, 2, 10],
      ]),
      { targets, a4Hz: 440, sounding: ["G2", "D4"] },
    );
    expect(reading.strings.filter(({ status }) => status === "measured")).toEqual([]);
    const foreign = reading.findings.filter(({ code }) => code === "foreign-sound");
    expect(foreign).toHaveLength(1);
    const hz = Number(foreign[0].values.frequencyHz);
    const apart = [E4, 441].map((one) => Math.abs(hz - Math.max(1, Math.round(hz / one)) * one));
    expect(Math.min(...apart)).toBeLessThan(3);
  });

  it("is told where it stands in the other channel alone", () => {
    const both = take(12, [
      [98.2, 2, 10],
      [131.3, 2, 10],
    ]);
    const side = take(12, [
      [98.2, 2, 10],
      [E4, 2, 10],
    ]);
    const left = both.read(0, both.frameCount)[0];
    const right = side.read(0, side.frameCount)[0].map((value) => 0.7 * value);
    const reading = measureTake(memoryRecording([left, right], RATE), { targets, a4Hz: 440 });
    const told = [...reading.findings, ...reading.strings.flatMap(({ findings }) => findings)];
    const codes = told.map(({ code }) => code);
    expect(codes.some((code) => ["other-sound", "foreign-sound", "several-strings"].includes(code))).toBe(
      true,
    );
  });
});

describe("a passage that reads like one string", () => {
  // Each of these was once read as its lowest string alone, without a word.
  it.each([
    [
      "an octave, the upper string louder",
      [
        [98, 0],
        [196.8, 3],
      ],
      ["G2", "G3"],
    ],
    [
      "a double octave",
      [
        [98, 0],
        [393.2, 2],
      ],
      ["G2", "G4"],
    ],
    [
      "a twelfth",
      [
        [98, 0],
        [293.4, 0],
      ],
      ["G2", "D4"],
    ],
    [
      "an octave of the high drone",
      [
        [196.1, 0],
        [391.1, -3],
      ],
      ["G3", "G4"],
    ],
  ] as const)("is asked whether more sounds: %s", (_, strings, names) => {
    const random = new SeededRandom(83);
    const samples = Float32Array.from({ length: 11 * RATE }, () => random.normal(3e-4));
    for (const [s, [frequencyHz, levelDb]] of strings.entries()) {
      const string = bowedString({
        frequencyHz,
        durationSeconds: 7,
        sampleRateHz: RATE,
        seed: 120 + s,
        partialAmplitudes: bodyAmplitudes(frequencyHz, 80, 0.1 * 10 ** (levelDb / 20), [], 100),
        swingCents: 1.2,
        jitterCents: 0.4,
        levelSwingDb: 0.6,
      });
      for (let i = 0; i < string.samples.length; i++) samples[2 * RATE + i] += string.samples[i];
    }
    const reading = measureTake(memoryRecording([samples], RATE), { targets, a4Hz: 440 });
    const heard = reading.strings.filter(({ status }) => status === "measured");
    expect(heard.map(({ name }) => name)).toEqual(names);
    for (const [i, [hz]] of strings.entries()) {
      // The mean of 6.5 s differs from the pitch beneath by up to 0.2 cent of swing and jitter.
      expect(Math.abs(cents(heard[i].frequencyHz!, hz))).toBeLessThan(0.3);
    }
  });

  it("and holds one is left as it is", () => {
    const reading = measureTake(take(11, [[98.1, 2, 9]]), { targets, a4Hz: 440 });
    expect(reading.strings.filter(({ status }) => status === "measured").map(({ name }) => name)).toEqual([
      "G2",
    ]);
  });
});
