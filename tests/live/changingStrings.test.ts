import { describe, expect, it } from "vitest";
import { NOTE_HZ } from "../reading/bowedTake.js";
import { movedHz } from "../strings/handMadePassage.js";
import { between, bowed, firstSounding, hear, named, scene } from "./hearing.js";

const { G2, D4, G4, C3, C4 } = NOTE_HZ;

describe("another string", () => {
  it("is shown within half a second, with a pause before it or without", () => {
    for (const [pause, seed] of [
      [0, 311],
      [0.3, 312],
      [1.05, 313],
    ]) {
      const at = 3.1 + pause;
      const first = bowed(movedHz(G2, 2), 2, seed, { releaseSeconds: 0.05 });
      const second = bowed(movedHz(D4, -3), 2, seed + 50, { attackSeconds: 0.05 });
      const samples = scene(
        7,
        [
          [1.1, first],
          [at, second],
        ],
        seed,
      );
      const readings = hear([samples]);
      const shown = firstSounding(readings, "D4");
      expect((shown?.seconds ?? Number.NaN) - at).toBeLessThanOrEqual(0.5);
      for (const reading of between(readings, at + 0.5, at + 2)) {
        expect(named(reading, "D4").status).toBe("sounding");
        expect(named(reading, "G2").status).toBe("heard");
        // The first pitch stays as it was, untouched by the change: 2 cents as of any steady string.
        expect(Math.abs((named(reading, "G2").deviationCents ?? Number.NaN) - 2)).toBeLessThan(2);
      }
    }
  });
});

describe("a peg that is turned", () => {
  // From 40 cents flat to the target at 10 cents a second; half a second of it is 5 cents. To that the swing of the wheel comes,
  // which a window of half a second follows: 1 cent here, hardly any where the string of these cases swings less.
  const CENTS_PER_SECOND = 10;
  const LAG_CENTS = 5;
  const turned = (holdSeconds: number) => (seconds: number) =>
    Math.min(0, -40 + CENTS_PER_SECOND * Math.max(0, seconds - holdSeconds));
  const cases = [
    { name: "G2", targetHz: G2, holdSeconds: 2, swingCents: 1, seed: 6041 },
    { name: "C3", targetHz: C3, holdSeconds: 1.3, swingCents: 0.5, seed: 6042 },
    { name: "G4", targetHz: G4, holdSeconds: 3.2, swingCents: 1, seed: 6043 },
  ];

  it.each(cases)("is followed with less than half a second of lag: $name", (one) => {
    const { name, targetHz, holdSeconds, swingCents, seed } = one;
    const bendCents = turned(holdSeconds);
    const string = bowed(targetHz, holdSeconds + 7, seed, { bendCents, swingCents, jitterCents: 0.3 });
    const readings = hear([scene(holdSeconds + 9, [[1, string]], seed)]);
    const end = 1 + holdSeconds + 4;
    const behind = (seconds: number, deviation: number | null) =>
      bendCents(seconds - 1) - (deviation ?? Number.NaN);
    // It takes up to 0.7 s until what moves is told from what swings.
    const during = between(readings, 1 + holdSeconds + 0.75, end);
    expect(during.length).toBeGreaterThanOrEqual(12);
    for (const reading of during) {
      const { deviationCents, isMoving, interval95Cents, status } = named(reading, name);
      expect(status).toBe("sounding");
      expect(Math.abs(behind(reading.seconds, deviationCents))).toBeLessThan(LAG_CENTS);
      expect(isMoving).toBe(true);
      expect(interval95Cents).toBeNull();
    }
    // A reading a second later is that of the new pitch, and within 2 cents of it.
    for (const reading of between(readings, end + 1, end + 3)) {
      expect(Math.abs(behind(reading.seconds, named(reading, name).deviationCents))).toBeLessThan(2);
    }
    const settled = named(between(readings, end + 2.9, end + 3.5)[0], name);
    expect(settled).toMatchObject({ isMoving: false, lack: null });
  });

  it("keeps its string, however far it takes it", () => {
    // From C4 up to 10 cents under D4: it is C4's row that says 190, until the sound ends.
    const bendCents = (seconds: number) => Math.min(190, 40 * Math.max(0, seconds - 2));
    const string = bowed(C4, 9, 44, { bendCents });
    const readings = hear([scene(10.5, [[1, string]], 44)]);
    for (const reading of between(readings, 1.5, 10)) expect(named(reading, "D4").status).toBe("not-heard");
    const last = named(between(readings, 9, 10)[0], "C4");
    expect(last.status).toBe("sounding");
    expect(Math.abs((last.deviationCents ?? Number.NaN) - 190)).toBeLessThan(2);
    expect(last.findings.map(({ code }) => code)).toContain("far-off");
  });

  it("brings a string from far off to its target, in two goes", () => {
    // A semitone and a half flat: C3 is the nearest string to it, and stays so after a pause.
    const bend = (from: number, to: number) => (seconds: number) =>
      Math.min(to, from + 50 * Math.max(0, seconds - 1));
    const sounds = [
      [1, bowed(C3, 4, 45, { bendCents: bend(-150, -90) })],
      [7, bowed(C3, 5, 46, { bendCents: bend(-90, 0) })],
    ] as const;
    const readings = hear([scene(13, sounds, 45)]);
    expect(
      Math.abs((named(between(readings, 4, 5)[0], "C3").deviationCents ?? Number.NaN) + 90),
    ).toBeLessThan(2);
    expect(Math.abs(named(between(readings, 11, 12)[0], "C3").deviationCents ?? Number.NaN)).toBeLessThan(2);
  });
});
