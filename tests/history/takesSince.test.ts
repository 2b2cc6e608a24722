import { describe, expect, it } from "vitest";
import { parseMoment } from "../../src/history/parseMoment.js";
import { takesSince } from "../../src/history/takesSince.js";
import { workNote } from "../../src/history/workNote.js";
import { loggedTake } from "./loggedTakes.js";

describe("takesSince", () => {
  const takes = ["2026-03-01", "2026-03-02T00:00", "2026-03-02", "2026-03-02T18:00", "2026-03-03"].map(
    (takenAt) => loggedTake({ takenAt, cents: { C2: 0 } }),
  );
  const since = (text: string) => takesSince(takes, parseMoment(text)!).map(({ takenAt }) => takenAt);

  it("begins a day at midnight, and puts a take without a time of day at noon", () => {
    expect(since("2026-03-02")).toEqual(["2026-03-02T00:00", "2026-03-02", "2026-03-02T18:00", "2026-03-03"]);
    expect(since("2026-03-02T12:00")).toEqual(["2026-03-02", "2026-03-02T18:00", "2026-03-03"]);
    expect(since("2026-03-02T12:01")).toEqual(["2026-03-02T18:00", "2026-03-03"]);
    expect(since("2026-03-04")).toEqual([]);
  });
});

describe("workNote", () => {
  it("is on one line, and not too long", () => {
    expect(workNote(" new\n  cotton ")).toBe("new cotton");
    expect(workNote(" \t ")).toBeNull();
    expect(workNote("a".repeat(500))).toHaveLength(500);
    expect(workNote("a".repeat(501))).toBeNull();
  });
});
