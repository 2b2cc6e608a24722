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

  it("carries the open string's own error, which all keys share, in its intervals", () => {
    const random = new SeededRandom(5400);
    const OPEN_SD = 0.5;
    const half = 1.96 * OPEN_SD;
    const TRIALS = 400;
    let [held, heldWithout, heldBridge] = [0, 0, 0];
    const holds = (interval95: readonly [number, number] | undefined, truth: number) =>
      interval95 !== undefined && interval95[0] <= truth && truth <= interval95[1] ? 1 : 0;
    for (let t = 0; t < TRIALS; t++) {
      // Keys true to 0.3 cent, the open string heard by so much too low or too high.
      const open = random.normal(OPEN_SD);
      const keys = KEYS.map(() => random.normal(0.3) - open);
      const nut = keys.map((off) => off + 5);
      const bridge = keys.map((off, i) => off + 6 * slope(KEYS[i]));
      held += holds(shiftPattern(KEYS, nut, half).constantCents?.interval95, 5);
      heldWithout += holds(shiftPattern(KEYS, nut).constantCents?.interval95, 5);
      heldBridge += holds(shiftPattern(KEYS, bridge, half).bridgeCents?.interval95, 6);
    }
    // Of 400, standard error 1.1 points: three of them below 95 %.
    expect(held / TRIALS).toBeGreaterThan(0.917);
    expect(heldBridge / TRIALS).toBeGreaterThan(0.917);
    // The keys alone know their mean to 0.06 cent, an eighth of what the open string is out by.
    expect(heldWithout / TRIALS).toBeLessThan(0.4);
  });

  it("does not offer a shift that no hand could set", () => {
    const random = new SeededRandom(5500);
    const noise = KEYS.map(() => random.normal(0.05));
    const constant = shiftPattern(
      KEYS,
      noise.map((off) => off + 0.6),
    );
    const bridge = shiftPattern(
      KEYS,
      noise.map((off, i) => off + 0.4 * slope(KEYS[i])),
    );
    for (const { constantCents, bridgeCents } of [constant, bridge]) {
      expect([constantCents, bridgeCents]).toEqual([null, null]);
    }
    expect(
      shiftPattern(
        KEYS,
        noise.map((off) => off + 1.5),
      ).constantCents,
    ).not.toBeNull();
  });

  it("says nothing of fewer than six keys", () => {
    const { constantCents, bridgeCents } = shiftPattern([1, 2, 3, 4, 5], [9, 9, 9, 9.1, 9]);
    expect([constantCents, bridgeCents]).toEqual([null, null]);
  });
});
