import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readWheel } from "../../src/wheel/readWheel.js";
import { readWheelPassage, type WheelOptions } from "../../src/wheel/readWheelPassage.js";
import { gaussMarkov, movementOf, passageOf } from "./handMadeMovement.js";

const OPTIONS: WheelOptions = { givenTurns: null, falseAlarmLevel: 0.05 };
const SECONDS = 12;
const RATE_HZ = 1.3;

/** Angle of the wheel in radians. */
const wheel = (seconds: number, rateHz = RATE_HZ) => 2 * Math.PI * rateHz * seconds;
const degrees = (angle: number) => (angle * Math.PI) / 180;

/** A string whose pitch and level swing as they are told, with a little random movement. */
function string(
  seed: number,
  cents: (angle: number) => number,
  db: (angle: number) => number,
  seconds = SECONDS,
  rateHz = RATE_HZ,
) {
  const random = new SeededRandom(seed);
  const pitch = gaussMarkov(0.2, 0.05, random);
  const level = gaussMarkov(0.1, 0.1, random);
  return movementOf(
    seconds,
    (time) => pitch() + cents(wheel(time, rateHz)),
    (time) => level() + db(wheel(time, rateHz)),
  );
}

const sine =
  (amount: number, late = 0) =>
  (angle: number) =>
    amount * Math.sin(angle - degrees(late));
const none = () => 0;

describe("readWheelPassage", () => {
  it("reads rate and swings of one string", () => {
    const read = readWheelPassage(passageOf(SECONDS, { G4: string(11, sine(1.5), sine(0.7)) }), OPTIONS);
    // Random movement of 0.2 cents over 0.05 s moves a swing by sqrt(4 * 0.04 * 0.05 / 12) = 0.026 cents (one standard
    // deviation); four of them. Of the level, 0.1 dB over 0.1 s: 0.018 dB.
    expect(Math.abs(read.pitch.swing! - 1.5)).toBeLessThan(0.1);
    expect(Math.abs(read.level.swing! - 0.7)).toBeLessThan(0.08);
    expect(Math.abs(read.turnsPerSecond! / RATE_HZ - 1)).toBeLessThan(0.01);
    expect(read.cause).toBe("one-string");
    const [{ pitch, level }] = read.strings;
    expect(pitch.harmonics.map(({ number }) => number)).toEqual([1]);
    // The turn is counted from where the pitch is highest.
    expect(Math.min(pitch.harmonics[0].highestDegrees, 360 - pitch.harmonics[0].highestDegrees)).toBeLessThan(
      1e-6,
    );
    // Pitch and level swing alike: the level is highest at the same place, within what random movement does to it.
    const apart = ((level.harmonics[0].highestDegrees + 180) % 360) - 180;
    expect(Math.abs(apart)).toBeLessThan(12);
  });

  it("lays any shape over one turn", () => {
    // A bump of 1.2 dB over a tenth of the turn, as a bad spot of rosin makes it.
    const bump = (angle: number) => {
      const place = (angle / (2 * Math.PI)) % 1;
      return place > 0.4 && place < 0.5 ? 1.2 : 0;
    };
    const read = readWheelPassage(passageOf(SECONDS, { G4: string(12, sine(1), bump) }), OPTIONS);
    const { turn } = read.strings[0].level;
    expect(turn).toHaveLength(24);
    // Against the mean of the turn, 0.12 dB: 1.08 on the bump, -0.12 beside it. The pitch is highest at a quarter turn, where 0 is
    // counted from: the bump lies from 54 to 90 degrees. Level jitter of 0.1 dB over 15 turns, and half-covered places.
    const inside = turn.filter((place) => place.degrees > 62 && place.degrees < 82);
    const outside = turn.filter((place) => place.degrees < 45 || place.degrees > 99);
    for (const { mean } of inside) expect(Math.abs(mean - 1.08)).toBeLessThan(0.2);
    for (const { mean } of outside) expect(Math.abs(mean + 0.12)).toBeLessThan(0.1);
    // The mean of all places is the zero they are counted from.
    expect(turn.reduce((sum, { mean }) => sum + mean, 0)).toBeCloseTo(0, 9);
  });

  it("tells the arm, which moves all strings at once, from the wheel, which passes them in turn", () => {
    const at = (late: number, seed: number) => string(seed, sine(1.2, late), sine(0.6, late + 90));
    const arm = readWheelPassage(
      passageOf(SECONDS, { C2: at(0, 21), G3: at(0, 22), G4: at(0, 23) }),
      OPTIONS,
    );
    expect(arm.cause).toBe("all-at-once");
    expect(arm.pitch.togetherShare).toBeGreaterThan(0.98);
    const out = readWheelPassage(
      passageOf(SECONDS, { C2: at(0, 24), G3: at(50, 25), G4: at(130, 26) }),
      OPTIONS,
    );
    expect(out.cause).toBe("one-after-another");
    const later = out.differences.filter(({ quantity }) => quantity === "pitch");
    expect(later.map(({ first, second }) => `${first} ${second}`)).toEqual(["C2 G3", "C2 G4", "G3 G4"]);
    // A phase is uncertain by 0.026 cents of 1.2, 1.3 degrees, so a difference by 1.8; four of them.
    for (const [i, truth] of [50, 130, 80].entries()) {
      expect(Math.abs(later[i].laterDegrees - truth)).toBeLessThan(8);
    }
  });

  it("gives the rate and half of it, and halves where only the slower turn explains a wave", () => {
    const twice = (amount: number) => (angle: number) => amount * Math.sin(2 * angle);
    const like = readWheelPassage(passageOf(SECONDS, { G4: string(31, twice(1), twice(0.6)) }), OPTIONS);
    // Two pushes exactly alike: nothing in the sound tells them from one a turn at twice the rate.
    expect(like.candidates.map(({ turnsPerSecond }) => turnsPerSecond / RATE_HZ)).toEqual([
      expect.closeTo(2, 1),
      expect.closeTo(1, 1),
    ]);
    expect(like.candidates.map(({ reason }) => reason)).toEqual(["strongest", "no-sub-wave"]);
    const unlike = readWheelPassage(
      passageOf(SECONDS, { G4: string(32, twice(1), (angle) => twice(0.6)(angle) + sine(0.25)(angle)) }),
      OPTIONS,
    );
    expect(unlike.turnsPerSecond! / RATE_HZ).toBeCloseTo(1, 2);
    expect(unlike.candidates[0]).toMatchObject({ isTaken: true, strongestWave: 2, reason: "sub-wave" });
  });

  it("takes turns counted by eye to within 15 %", () => {
    const twice = (angle: number) => Math.sin(2 * angle);
    const passage = passageOf(SECONDS, { G4: string(33, twice, none) });
    for (const share of [0.88, 1, 1.12]) {
      const read = readWheelPassage(passage, { ...OPTIONS, givenTurns: share * RATE_HZ });
      expect(read.turnsPerSecond! / RATE_HZ).toBeCloseTo(1, 2);
      expect(read.candidates).toMatchObject([{ reason: "given", strongestWave: 2 }]);
    }
  });

  it("says why nothing was read", () => {
    const short = readWheelPassage(passageOf(3, { G4: string(41, sine(2), sine(1), 3) }), OPTIONS);
    expect(short).toMatchObject({ turnsPerSecond: null, refusal: "too-short", falseAlarmProbability: null });
    const still = readWheelPassage(passageOf(SECONDS, { G4: string(42, none, none) }), OPTIONS);
    expect(still).toMatchObject({ turnsPerSecond: null, refusal: "no-swing", strings: [] });
    expect(still.falseAlarmProbability).toBeGreaterThan(0.05);
    expect(readWheelPassage(passageOf(SECONDS, {}), OPTIONS)).toMatchObject({ refusal: "not-followed" });
  });

  it("says how small a swing of the other kind could have been missed", () => {
    const read = readWheelPassage(passageOf(SECONDS, { G4: string(43, none, sine(0.8)) }), OPTIONS);
    const [{ pitch, level }] = read.strings;
    expect(level.swing).not.toBeNull();
    expect(pitch).toMatchObject({ swing: null, harmonics: [] });
    // Twice the standard error of 0.026 cents and what is there by chance.
    expect(pitch.interval95[0]).toBe(0);
    expect(pitch.interval95[1]).toBeGreaterThan(0.03);
    expect(pitch.interval95[1]).toBeLessThan(0.2);
  });

  it("does not depend on tuning, loudness or the names of strings, and swings scale", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        (seed, offset, scale) => {
          const movement = string(seed, sine(1), sine(0.5));
          const moved = {
            ...movement,
            centSeconds: movement.centSeconds.map((value, m) => scale * value + offset * m * 0.01),
            levelDb: movement.levelDb.map((value) => scale * value + offset),
          };
          const a = readWheelPassage(passageOf(SECONDS, { a: movement }), OPTIONS);
          const b = readWheelPassage(passageOf(SECONDS, { b: moved }), OPTIONS);
          expect(b.turnsPerSecond).toBeCloseTo(a.turnsPerSecond!, 6);
          expect(b.pitch.swing! / scale).toBeCloseTo(a.pitch.swing!, 6);
          expect(b.level.swing! / scale).toBeCloseTo(a.level.swing!, 6);
        },
      ),
      { numRuns: 8, seed: 5 },
    );
  });
});

describe("readWheel", () => {
  it("takes medians over the passages that show a swing, and tests each so that the take keeps its 5 %", () => {
    const swinging = (seed: number, amount: number) =>
      passageOf(SECONDS, { G4: string(seed, sine(amount), none) });
    const still = passageOf(SECONDS, { G4: string(54, none, none) });
    const read = readWheel([swinging(51, 1), swinging(52, 2), swinging(53, 3), still]);
    expect(read.passages.map(({ refusal }) => refusal)).toEqual([null, null, null, "no-swing"]);
    expect(read.pitchSwingCents).toBe(read.passages[1].pitch.swing);
    expect(read.levelSwingDb).toBeNull();
    expect(readWheel([])).toEqual({
      turnsPerSecond: null,
      pitchSwingCents: null,
      levelSwingDb: null,
      passages: [],
    });
  });
});
