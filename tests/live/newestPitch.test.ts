import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newestPitch } from "../../src/live/newestPitch.js";

/** Means over half a second, every quarter of a second, newest first, of a pitch given by seconds before now. */
function meansOf(pitch: (secondsAgo: number) => number, seconds: number): number[] {
  const means: number[] = [];
  for (let back = 0; back + 0.5 <= seconds + 1e-9; back += 0.25) {
    let sum = 0;
    for (let i = 0; i < 100; i++) sum += pitch(back + (0.5 * (i + 0.5)) / 100);
    means.push(sum / 100);
  }
  return means;
}

describe("newestPitch", () => {
  it("takes all of a pitch that stands", () => {
    expect(newestPitch(meansOf(() => 7, 6))).toEqual({ seconds: Number.POSITIVE_INFINITY, isMoving: false });
    expect(newestPitch([])).toEqual({ seconds: Number.POSITIVE_INFINITY, isMoving: false });
  });

  it("takes all of one that swings by up to 3 cents with the wheel, wherever in the turn it is", () => {
    const turns = { min: 0.8, max: 3, noNaN: true };
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double(turns),
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        fc.integer({ min: 1, max: 8 }),
        (cents, rate, phase, seconds) => {
          const swing = (ago: number) => cents * Math.sin(2 * Math.PI * rate * ago + phase);
          expect(newestPitch(meansOf(swing, seconds)).isMoving).toBe(false);
        },
      ),
      { seed: 9601 },
    );
  });

  it("takes the last half second of one that moves at 10 cents a second, up or down", () => {
    for (const direction of [1, -1]) {
      const ramp = meansOf((ago) => -direction * 10 * ago, 4);
      expect(newestPitch(ramp)).toEqual({ seconds: 0.5, isMoving: true });
    }
  });

  it("averages a slow one over so long that it lags by a few cents at most", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), (centsPerSecond) => {
        const { seconds } = newestPitch(meansOf((ago) => -centsPerSecond * ago, 8));
        // Nothing is averaged over more than 4 s, nor over less than 0.5.
        const lag = (centsPerSecond * Math.min(seconds, 4)) / 2;
        expect(lag).toBeLessThanOrEqual(Math.max(3, centsPerSecond / 4) + 1e-9);
      }),
      { seed: 9602 },
    );
  });

  it("takes only what came after a peg has stopped", () => {
    for (const stopped of [1.5, 2, 3]) {
      const { seconds, isMoving } = newestPitch(
        meansOf((ago) => (ago < stopped ? 0 : -10 * (ago - stopped)), 7),
      );
      expect(isMoving).toBe(false);
      // Half a second of the move may be in it: 0.2 of a cent in a second and a half.
      expect(seconds).toBeLessThanOrEqual(stopped + 0.5);
      expect(seconds).toBeGreaterThanOrEqual(stopped - 0.5);
    }
  });

  it("does not depend on where the pitch lies, nor on its direction", () => {
    const series = fc.array(fc.integer({ min: -40, max: 40 }), { maxLength: 30 });
    fc.assert(
      fc.property(series, fc.integer({ min: -100, max: 100 }), (means, shift) => {
        const plain = newestPitch(means);
        expect(newestPitch(means.map((value) => value + shift))).toEqual(plain);
        expect(newestPitch(means.map((value) => 0 - value))).toEqual(plain);
      }),
      { seed: 9603 },
    );
  });
});
