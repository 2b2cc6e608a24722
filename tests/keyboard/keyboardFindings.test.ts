import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { keyLadder } from "../../src/keyboard/keyLadder.js";
import { readKeyboard } from "../../src/keyboard/readKeyboard.js";
import { type ScalePlan, scaleTake } from "./scaleTake.js";

const MELODY = { C3: 130.8128, G3: 195.9977, D4: 293.6648, G4: 391.9954 };
type Name = keyof typeof MELODY;

/** About 1 s a scale, more where the machine is busy. */
const LONGEST_MS = 60_000;

const up = (keys: number, seconds = 0.6) => Array.from({ length: keys + 1 }, (_, key) => ({ key, seconds }));

function read(played: Name, said: Name, plan: Partial<ScalePlan> = {}, keys = 23) {
  const take = scaleTake({
    openHz: MELODY[played],
    played: up(17),
    centsOfKey: (key) => 100 * key,
    seed: 61_407,
    ...plan,
  });
  return readKeyboard(memoryRecording([take.samples], take.sampleRateHz), {
    string: said,
    openTargetHz: MELODY[said],
    ladderCents: keyLadder("equal", 0, keys),
    lengthMm: 345,
    drones: (plan.drones ?? []).map(({ frequencyHz }) => ({ name: frequencyHz.toFixed(0), frequencyHz })),
    otherStrings: Object.entries(MELODY)
      .filter(([name]) => name !== said)
      .map(([name, frequencyHz]) => ({ name, frequencyHz })),
  });
}

type Reading = ReturnType<typeof read>;
const found = (reading: Reading, code: string) => reading.findings.find((one) => one.code === code);

describe("a scale on another string than the one named", () => {
  it("is told where notes lie below the open string, with the name of the other", () => {
    for (const [played, said] of [
      ["D4", "G4"],
      ["G3", "D4"],
    ] as const) {
      const finding = found(read(played, said), "likely-string");
      expect(finding).toMatchObject({ severity: "problem", values: { other: played, string: said } });
    }
  });

  it("is doubted where the lowest keys would be missing and another open string fits", () => {
    const finding = found(read("G4", "D4"), "likely-string");
    expect(finding).toMatchObject({ severity: "warning", values: { other: "G4" } });
  });

  it("is not told of the string that it was played on, with the open string or without", {
    timeout: LONGEST_MS,
  }, () => {
    for (const name of ["C3", "G3", "D4", "G4"] as const) {
      expect(found(read(name, name), "likely-string")).toBeUndefined();
      expect(found(read(name, name, { played: up(17).slice(1) }), "likely-string")).toBeUndefined();
    }
  });
});

describe("what was played", () => {
  it("too fast is told as that, with how many notes", () => {
    const fast = read("G4", "G4", { played: up(17, 0.22) });
    expect(fast.keys).toEqual([]);
    const { values } = found(fast, "played-too-fast")!;
    // The first and last may be lost in the beginning and the end.
    expect(values.count).toBeGreaterThanOrEqual(16);
    expect(values.count).toBeLessThanOrEqual(18);
    expect(found(fast, "no-key")).toBeDefined();
    expect(found(read("G4", "G4", { played: up(17, 0.4) }), "played-too-fast")).toBeUndefined();
  });

  it("above the last key of the file is told apart from slips", () => {
    const reading = read("G4", "G4", {}, 13);
    expect(found(reading, "keys-beyond-file")?.values).toMatchObject({ count: 4, keyCount: 13 });
    expect(found(reading, "notes-not-placed")).toBeUndefined();
    expect(reading.keys.map(({ key }) => key)).toEqual(
      up(13)
        .slice(1)
        .map(({ key }) => key),
    );
  });
});

describe("keys that sound badly", () => {
  const bad = { harshKeysDb: { 4: 4, 11: 8 }, unsteadyKeysCents: { 14: 12 } };

  it.each([
    ["alone", []],
    ["over a drone", [{ frequencyHz: 196.4, strength: 0.1 }]],
  ] as const)("are named %s", { timeout: LONGEST_MS }, (_, drones) => {
    for (const seed of [71, 72]) {
      const reading = read("G4", "G4", { ...bad, drones, seed, played: up(17, 0.8) });
      expect(found(reading, "harsh-keys")?.values.keys).toBe("4, 11");
      expect(found(reading, "unsteady-keys")?.values.keys).toBe("14");
      // Noise 4 dB below the note, in 0.7 s of it: a harsh key may be off by a few cents, not by a key.
      for (const { deviationCents } of reading.keys) expect(Math.abs(deviationCents)).toBeLessThan(15);
    }
  });

  it("are not claimed where none is, over a barking trompette too", { timeout: LONGEST_MS }, () => {
    const drones = [
      { frequencyHz: 131.1, strength: 0.08 },
      { frequencyHz: 262, strength: 0.1, buzzesPerSecond: 2.8 },
    ];
    for (const seed of [81, 82, 83]) {
      const reading = read("G4", "G4", { drones, seed });
      expect(found(reading, "harsh-keys")).toBeUndefined();
      expect(found(reading, "unsteady-keys")).toBeUndefined();
    }
  });
});
