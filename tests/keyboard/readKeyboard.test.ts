import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { compareKeyboards } from "../../src/keyboard/compareKeyboards.js";
import { keyLadder } from "../../src/keyboard/keyLadder.js";
import { readKeyboard } from "../../src/keyboard/readKeyboard.js";
import { type ScalePlan, scaleTake } from "./scaleTake.js";

const OPEN_HZ = 391.9954;
const OTHERS = [
  { name: "G4 2", frequencyHz: 391.9954 },
  { name: "D4", frequencyHz: 293.6648 },
];
const UP = Array.from({ length: 16 }, (_, key) => ({ key, seconds: 0.6 }));
/** What single tangents are off, in cents, by key. */
const OFF: Readonly<Record<number, number>> = { 4: 9, 11: -7 };

function read(plan: Partial<ScalePlan> = {}, lengthMm: number | null = 345) {
  const take = scaleTake({
    openHz: OPEN_HZ,
    played: UP,
    centsOfKey: (key) => 100 * key + (OFF[key] ?? 0),
    seed: 90_210,
    ...plan,
  });
  return readKeyboard(memoryRecording([take.samples], take.sampleRateHz), {
    string: "G4",
    openTargetHz: OPEN_HZ,
    ladderCents: keyLadder("equal", 7, 15),
    lengthMm,
    otherStrings: OTHERS,
  });
}

const codes = (reading: ReturnType<typeof read>) => reading.findings.map(({ code }) => code);

describe("readKeyboard", () => {
  it("reads every key and moves the tangents that are off", () => {
    const reading = read();
    expect(reading.openBasis).toBe("heard");
    expect(reading.keys.map(({ key }) => key)).toEqual(UP.slice(1).map(({ key }) => key));
    for (const { key, deviationCents } of reading.keys) {
      // Jitter of 0.4 cent over 0.45 s, key and open string: four standard deviations.
      expect(Math.abs(deviationCents - (OFF[key] ?? 0))).toBeLessThan(1);
    }
    // 9 cents at 1731.23 / 273.8 = 6.32 cents a millimetre, to within a cent.
    expect(reading.keys[3].tangentMove?.towards).toBe("nut");
    expect(Math.abs((reading.keys[3].tangentMove?.moveMm ?? 0) - 9 / 6.32)).toBeLessThan(0.16);
    expect(reading.keys[10].tangentMove?.towards).toBe("bridge");
    expect(reading.pattern.constantCents).toBeNull();
    expect(reading.pattern.bridgeCents).toBeNull();
  });

  it("finds a bridge that is 1.5 mm too near to the nut, and what is left for the tangents", () => {
    // Keys set right for 345 mm, the bridge then moved: key n sounds with 345 * 2^(-n/12) - 1.5 mm of 343.5 mm.
    const shifted = (key: number) => 1200 * Math.log2(343.5 / (345 * 2 ** (-key / 12) - 1.5));
    const reading = read({ centsOfKey: (key) => shifted(key) + (key === 8 ? 6 : 0) });
    const { bridgeShiftMm, nutShiftMm } = reading.pattern;
    expect(nutShiftMm).toBeNull();
    expect(bridgeShiftMm!.value).toBeGreaterThan(1.3);
    expect(bridgeShiftMm!.value).toBeLessThan(1.7);
    for (const { key, leftCents } of reading.keys) {
      // The formula is to first order: 0.1 cent here.
      expect(Math.abs(leftCents - (key === 8 ? 6 : 0))).toBeLessThan(1.2);
    }
  });

  it("counts from the target where the open string was not played, and says so", () => {
    const reading = read({ played: UP.slice(1), openHz: OPEN_HZ * 2 ** (9 / 1200) });
    expect(reading.openBasis).toBe("target");
    expect(codes(reading)).toContain("open-not-played");
    expect(Math.abs((reading.pattern.constantCents?.value ?? 0) - 9)).toBeLessThan(1);
  });

  it("gives cents but no millimetres without a length", () => {
    const reading = read({}, null);
    expect(codes(reading)).toContain("no-length");
    expect(reading.keys.every(({ tangentMove }) => tangentMove === null)).toBe(true);
  });

  it("names keys that were missed, and a move that no turning gives", () => {
    const reading = read({
      played: UP.filter(({ key }) => key !== 6),
      centsOfKey: (key) => 100 * key + (key === 2 ? 32 : 0),
    });
    expect(reading.missedKeys).toEqual([6]);
    const large = reading.findings.find(({ code }) => code === "large-move");
    expect(large?.values.keys).toBe("2");
  });

  it("warns where a second string of the same note, or an octave up, is stopped along", () => {
    expect(codes(read())).not.toContain("something-beats");
    expect(codes(read({ along: { openHz: OPEN_HZ * 2 ** (3 / 1200), strength: 0.07 } }))).toContain(
      "something-beats",
    );
    expect(codes(read({ along: { openHz: 2 * OPEN_HZ * 2 ** (3 / 1200), strength: 0.07 } }))).toContain(
      "something-beats",
    );
  });

  it("says that no key was heard where there is none", () => {
    const noise = scaleTake({ openHz: OPEN_HZ, played: UP, centsOfKey: () => -1900, seed: 4 });
    const reading = readKeyboard(memoryRecording([noise.samples], noise.sampleRateHz), {
      string: "G4",
      openTargetHz: OPEN_HZ,
      ladderCents: keyLadder("equal", 7, 15),
      lengthMm: 345,
    });
    expect(reading.keys).toEqual([]);
    expect(codes(reading)).toContain("no-key");
  });

  it("reads the side of a stereo take that the string stands on", () => {
    const take = scaleTake({ openHz: OPEN_HZ, played: UP, centsOfKey: (key) => 100 * key, seed: 77 });
    const tone = Float32Array.from(take.samples, (_, i) => 0.3 * Math.sin((2 * Math.PI * 97.3 * i) / 8000));
    const reading = readKeyboard(memoryRecording([tone, take.samples], take.sampleRateHz), {
      string: "G4",
      openTargetHz: OPEN_HZ,
      ladderCents: keyLadder("equal", 7, 15),
      lengthMm: null,
    });
    expect(reading.keys).toHaveLength(15);
  });
});

describe("compareKeyboards", () => {
  it("says where the tangents of two strings disagree, a common difference taken off", () => {
    const a = read();
    const b = read({
      centsOfKey: (key) => (key === 0 ? 0 : 100 * key + 5 + (key === 11 ? -7 : 0)),
      seed: 31,
    });
    const { commonCents, keys } = compareKeyboards(a, b);
    expect(Math.abs(commonCents + 5)).toBeLessThan(0.8);
    expect(keys.filter(({ disagrees }) => disagrees).map(({ key }) => key)).toEqual([4]);
  });
});
