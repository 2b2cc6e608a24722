import { describe, expect, it } from "vitest";
import type { LiveReading } from "../../src/live/LiveReading.js";
import { NOTE_HZ } from "../reading/bowedTake.js";
import { movedHz } from "../strings/handMadePassage.js";
import { between, bowed, hear, named, scene } from "./hearing.js";

const { G2, C3, G3, D4 } = NOTE_HZ;

function names({ strings }: LiveReading): string[] {
  return strings.filter(({ status }) => status === "sounding").map(({ name }) => name);
}

describe("two drones together", () => {
  const sounds = [
    [1, bowed(movedHz(G2, 5), 7, 511)],
    [1, bowed(movedHz(C3, -7), 7, 512)],
  ] as const;
  const readings = hear([scene(9, sounds, 51)]);

  it("are both shown once there is enough to tell them apart, and told as together or unclear until then", () => {
    // 0.2 s of attack, 1.5 s of sound, the newest 0.1 s and half a second between readings.
    for (const reading of between(readings, 1 + 2.3, 8)) {
      expect(reading.sound).toBe("together");
      expect(names(reading)).toEqual(["G2", "C3"]);
      // As near as of a string alone.
      expect(Math.abs((named(reading, "G2").deviationCents ?? Number.NaN) - 5)).toBeLessThan(2);
      expect(Math.abs((named(reading, "C3").deviationCents ?? Number.NaN) + 7)).toBeLessThan(2);
    }
    for (const { sound } of between(readings, 1 + 0.5, 3.3)) {
      expect(["together", "together-unclear", "unclear"]).toContain(sound);
    }
    const unclear = readings.filter(({ sound }) => sound === "together-unclear");
    expect(unclear.length).toBeGreaterThan(0);
    for (const { findings } of unclear) expect(findings.map(({ code }) => code)).toContain("several-strings");
  });

  it("are no third string at any time", () => {
    for (const { strings } of readings) {
      const heard = strings.filter(({ status }) => status !== "not-heard").map(({ name }) => name);
      expect(["", "G2", "C3", "G2,C3"]).toContain(heard.join(","));
    }
  });
});

describe("a string that joins another and leaves it", () => {
  const sounds = [
    [1, bowed(movedHz(G2, 3), 11, 521)],
    [4, bowed(movedHz(D4, 6), 4, 522)],
  ] as const;
  const readings = hear([scene(13, sounds, 52)]);

  it("is found within two and a half seconds, and told as gone within two", () => {
    for (const reading of between(readings, 4 + 2.5, 8)) expect(names(reading)).toEqual(["G2", "D4"]);
    for (const reading of between(readings, 8 + 2, 12)) expect(names(reading)).toEqual(["G2"]);
  });

  it("keeps the pitch it had", () => {
    for (const reading of between(readings, 4 + 2.5, 13)) {
      expect(Math.abs((named(reading, "D4").deviationCents ?? Number.NaN) - 6)).toBeLessThan(2);
      expect(Math.abs((named(reading, "G2").deviationCents ?? Number.NaN) - 3)).toBeLessThan(2);
    }
  });
});

describe("a peg turned while another string sounds", () => {
  it("is followed with less than half a second of lag", () => {
    const bendCents = (seconds: number) => Math.min(-5, -30 + 10 * Math.max(0, seconds - 4));
    const swing = { swingCents: 0.6 };
    const sounds = [
      [1, bowed(G2, 10, 531, swing)],
      [1, bowed(C3, 10, 532, { bendCents, ...swing })],
    ] as const;
    const readings = hear([scene(12, sounds, 53)]);
    // The move takes from 5 s to 7.5 s; it is told from the swing after 0.7 s.
    const during = between(readings, 5.75, 7.5);
    expect(during.length).toBeGreaterThanOrEqual(3);
    for (const reading of during) {
      const { deviationCents, isMoving } = named(reading, "C3");
      expect(isMoving).toBe(true);
      // Half a second at 10 cents a second.
      expect(Math.abs((deviationCents ?? Number.NaN) - bendCents(reading.seconds - 1))).toBeLessThan(5);
      expect(named(reading, "G2").isMoving).toBe(false);
    }
    const last = named(between(readings, 10, 11)[0], "C3");
    expect(Math.abs((last.deviationCents ?? Number.NaN) + 5)).toBeLessThan(2);
  });
});

describe("strings that can't be told apart", () => {
  it("are told as together where no tuning names them", () => {
    const sounds = [
      [1, bowed(movedHz(C3, 4), 4, 541)],
      [1, bowed(movedHz(G3, -9), 4, 542)],
    ] as const;
    const readings = hear([scene(6, sounds, 54)], undefined, null);
    for (const { sound } of between(readings, 2.5, 5)) expect(sound).toBe("together-unclear");
  });
});
