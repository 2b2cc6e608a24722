import { describe, expect, it } from "vitest";
import { compareBodies } from "../../src/tap/compareBodies.js";
import { readTaps } from "../../src/tap/readTaps.js";
import { lightBody, RATE_HZ, stiffBody, tapsOn } from "./exampleBodies.js";
import { recordingOf } from "./tapTake.js";

const SEED = 934_500;

function readingOf(modes: typeof lightBody, seed: number) {
  return readTaps(recordingOf({ samples: tapsOn(modes, seed, 5), sampleRateHz: RATE_HZ }));
}

const light = readingOf(lightBody, SEED);

describe("compareBodies", () => {
  it("shows the modes that differ, by how much, and no others", () => {
    const { pairs, onlyA, onlyB } = compareBodies(light, readingOf(stiffBody, SEED + 1));
    expect(pairs).toHaveLength(lightBody.length);
    expect([...onlyA, ...onlyB]).toEqual([]);
    expect(pairs.map(({ cents }) => cents.isShown)).toEqual(lightBody.map((_, k) => k === 1 || k === 2));
    expect(pairs.map(({ qPercent }) => qPercent.isShown)).toEqual(lightBody.map((_, k) => k === 4));
    expect(pairs.some(({ strengthDb }) => strengthDb.isShown)).toBe(false);
    const [first, second] = [pairs[1]!, pairs[2]!];
    const holds = (interval: readonly [number, number] | null, value: number) =>
      interval !== null && interval[0] <= value && value <= interval[1];
    expect(holds(first.cents.interval95, -1200 * Math.log2(1.042))).toBe(true);
    expect(holds(second.cents.interval95, -1200 * Math.log2(1.025))).toBe(true);
    expect(holds(pairs[4]!.qPercent.interval95, 100 * (35 / 22 - 1))).toBe(true);
  });

  it("keeps modes without a counterpart apart", () => {
    const a = light;
    const b = { ...a, modes: a.modes.filter((_, k) => k !== 3) };
    const { pairs, onlyA, onlyB } = compareBodies(a, b);
    expect(onlyA).toEqual([3]);
    expect(onlyB).toEqual([]);
    expect(pairs.every(({ cents, qPercent }) => cents.difference === 0 && qPercent.difference === 0)).toBe(
      true,
    );
    expect(compareBodies(b, a).onlyB).toEqual([3]);
    expect(compareBodies(b, { ...a, modes: [] }).pairs).toEqual([]);
  });
});
