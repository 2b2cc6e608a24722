import { describe, expect, it } from "vitest";
import { assignKeys } from "../../src/keyboard/assignKeys.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import { randomScale } from "./scaleCases.js";

const ladder = (keys: number) => Array.from({ length: keys + 1 }, (_, key) => 100 * key);

describe("assignKeys", () => {
  it("takes the place of the whole ladder into account, where rounding goes wrong", () => {
    // The string is 45 cents sharp: rounded by itself, every key that is 10 cents sharp besides would be the next one.
    const off = [0, 12, -5, 10, 3, 14, -2, 11];
    const notes = off.map((value, key) => 45 + 100 * key + value);
    expect(Math.round(notes[1] / 100)).toBe(2);
    expect(assignKeys(notes, ladder(12)).keys).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });

  it("takes repeats, keys left out and a way back down", () => {
    const played = [0, 1, 1, 2, 4, 5, 6, 6, 5, 4, 2, 1, 0];
    expect(
      assignKeys(
        played.map((key) => 100 * key + 3),
        ladder(23),
      ).keys,
    ).toEqual(played);
  });

  it("leaves out what is no key of the string", () => {
    const notes = [0, 100, 200, -600, 300, 400];
    expect(assignKeys(notes, ladder(12)).keys).toEqual([0, 1, 2, null, 3, 4]);
  });

  it("takes no notes as no keys", () => {
    expect(assignKeys([], ladder(12)).keys).toEqual([]);
  });

  it("places 99 of 100 random scales whose keys are off by up to 40 cents", () => {
    const random = new SeededRandom(771_200);
    let right = 0;
    const trials = 300;
    for (let t = 0; t < trials; t++) {
      const scale = randomScale(random, { drones: 0 });
      const offset = cents(scale.openHz, scale.targetHz);
      // A note's reading strays by a cent or so: the swing of the wheel is still in it.
      const notes = scale.played.map(({ key }) => offset + scale.centsOfKey(key) + random.normal(0.8));
      const { keys } = assignKeys(notes, ladder(scale.keys));
      if (keys.every((key, i) => key === scale.played[i].key)) right++;
    }
    expect(right).toBeGreaterThanOrEqual(0.99 * trials);
  }, 60_000);
});
