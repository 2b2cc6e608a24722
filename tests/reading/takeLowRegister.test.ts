import { describe, expect, it } from "vitest";
import type { SoundReading } from "../../src/reading/TakeReading.js";
import { takeLowRegister } from "../../src/reading/takeLowRegister.js";

/** A sound by its level and its partials: frequency, level relative to it. */
function soundingAt(levelDb: number, ...partials: readonly [number, number][]): SoundReading {
  return {
    strings: ["any"],
    durationSeconds: 5,
    partials: partials.map(([frequencyHz, partialDb]) => ({
      frequencyHz,
      power: 10 ** ((levelDb + partialDb) / 10),
    })),
  };
}

describe("takeLowRegister", () => {
  it("is the energy below 177.8 Hz over that up to 2818.4 Hz, of all sounds together", () => {
    // Low: 10^-2 + 10^-3; rest: 10^-2.3 + 10^-3: 10 lg(0.011 / 0.0060119) = 2.624 dB.
    const register = takeLowRegister([
      soundingAt(-20, [100, 0], [200, -3]),
      soundingAt(-30, [150, 0], [300, 0]),
    ]);
    expect(register?.lowRegisterDb).toBeCloseTo(2.624, 3);
  });

  it("leaves out what lies below 44.7 and beyond 2818.4 Hz", () => {
    const inside = takeLowRegister([soundingAt(-20, [100, 0], [200, -3])]);
    const more = takeLowRegister([soundingAt(-20, [100, 0], [200, -3], [44, 20], [2900, 20])]);
    expect(more?.lowRegisterDb).toBeCloseTo(inside!.lowRegisterDb!, 9);
    expect(more?.centroidHz).toBeCloseTo(inside!.centroidHz!, 9);
  });

  it("weighs the centroid with power", () => {
    // 100 Hz at power 1, 400 Hz at 1/10: (100 + 40) / 1.1 = 127.27 Hz.
    expect(takeLowRegister([soundingAt(0, [100, 0], [400, -10])])?.centroidHz).toBeCloseTo(127.2727, 3);
  });

  it("has null for bands in which no partial falls, and a level for the others", () => {
    const register = takeLowRegister([soundingAt(-20, [63, 0], [125, 0])])!;
    expect(register.octaveBandsDb).toEqual({
      63: expect.closeTo(-3.0103, 3),
      125: expect.closeTo(-3.0103, 3),
      250: null,
      500: null,
      1000: null,
      2000: null,
    });
    // IEC 61260-1: third-octave midbands 1000 * 10^(x / 10), here 63.1 and 125.9 Hz.
    const heard = register.thirdOctaveDb.filter(({ levelDb }) => levelDb !== null);
    expect(heard.map(({ midbandHz }) => midbandHz)).toEqual([
      expect.closeTo(63.0957, 3),
      expect.closeTo(125.8925, 3),
    ]);
    // Nothing above 177.8 Hz: no ratio.
    expect(register.lowRegisterDb).toBeNull();
  });

  it("is null where nothing was read", () => {
    expect(takeLowRegister([])).toBeNull();
    expect(takeLowRegister([soundingAt(-20)])).toBeNull();
  });
});
