import { describe, expect, it } from "vitest";
import { shiftPattern } from "../../src/keyboard/shiftPattern.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

const KEYS = Array.from({ length: 23 }, (_, i) => i + 1);
const slope = (key: number) => 2 ** (key / 12) - 1;

/** Tangents set to within 2 cents, two of them turned far. */
function deviations(random: SeededRandom, constant: number, bridge: number): number[] {
  const off = KEYS.map((key) => constant + bridge * slope(key) + random.normal(2));
  off[4] += 25;
  off[15] -= 20;
  return off;
}

describe("shiftPattern", () => {
  it("offers nothing where tangents alone are off", () => {
    const random = new SeededRandom(5100);
    let offered = 0;
    for (let t = 0; t < 200; t++) {
      const { constantCents, bridgeCents } = shiftPattern(KEYS, deviations(random, 0, 0));
      if (constantCents !== null || bridgeCents !== null) offered++;
    }
    // Three tests at 5 % each, and the spread must fall besides.
    expect(offered / 200).toBeLessThan(0.08);
  });

  it("tells a constant, a bridge shift, and both together", () => {
    const random = new SeededRandom(5200);
    const constant = shiftPattern(KEYS, deviations(random, 8, 0));
    expect(constant.bridgeCents).toBeNull();
    // Standard error 2 / sqrt(21) = 0.44 cents: four of them.
    expect(Math.abs((constant.constantCents?.value ?? 0) - 8)).toBeLessThan(1.8);
    const bridge = shiftPattern(KEYS, deviations(random, 0, 7));
    expect(bridge.constantCents).toBeNull();
    expect(Math.abs((bridge.bridgeCents?.value ?? 0) - 7)).toBeLessThan(1.2);
    const both = shiftPattern(KEYS, deviations(random, -9, 8));
    expect(both.constantCents?.value).toBeLessThan(0);
    expect(both.bridgeCents?.value).toBeGreaterThan(0);
  });

  it("gives intervals that hold the truth", () => {
    const random = new SeededRandom(5300);
    let [held, told] = [0, 0];
    for (let t = 0; t < 400; t++) {
      const { constantCents, bridgeCents } = shiftPattern(KEYS, deviations(random, 12, 10));
      for (const [estimate, truth] of [
        [constantCents, 12],
        [bridgeCents, 10],
      ] as const) {
        if (estimate === null) continue;
        told++;
        const [low, high] = estimate.interval95;
        if (low <= truth && truth <= high) held++;
      }
    }
    expect(told).toBeGreaterThan(780);
    // Of 800, standard error 0.8 points; a robust interval of 23 keys is a little narrow.
    expect(held / told).toBeGreaterThan(0.92);
    expect(held / told).toBeLessThan(0.98);
  });

  it("says nothing of fewer than six keys", () => {
    const { constantCents, bridgeCents } = shiftPattern([1, 2, 3, 4, 5], [9, 9, 9, 9.1, 9]);
    expect([constantCents, bridgeCents]).toEqual([null, null]);
  });
});
