import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseMoment } from "../../src/history/parseMoment.js";

describe("parseMoment", () => {
  it("counts days from 1970-01-01, noon where no time is given", () => {
    expect(parseMoment("1970-01-01")).toEqual({ text: "1970-01-01", hasTime: false, days: 0.5 });
    expect(parseMoment("1970-01-02 06:00")).toEqual({ text: "1970-01-02T06:00", hasTime: true, days: 1.25 });
    // 2000-03-01 is day 11017: 30 years of 365 days, 7 leap days up to 1999, 31 + 29 days of 2000.
    expect(parseMoment("2000-03-01T00:00:00")!.days).toBe(11_017);
  });

  it("knows the calendar", () => {
    for (const text of ["2024-02-29", "2000-02-29", "2026-12-31T23:59:59"])
      expect(parseMoment(text)).not.toBeNull();
    for (const text of [
      "2026-02-29",
      "1900-02-29",
      "2026-13-01",
      "2026-00-10",
      "2026-04-31",
      "2026-01-01T24:00",
      "2026-01-01T10:60",
    ])
      expect(parseMoment(text)).toBeNull();
    for (const text of [
      "",
      "1.3.2026",
      "2026-3-1",
      "2026-03-01Z",
      "2026-03-01T10",
      "x2026-03-01",
      "2026-03-01\n",
    ])
      expect(parseMoment(text)).toBeNull();
  });

  it("goes up by one from day to day, through leap years and turns of the year", () => {
    fc.assert(
      fc.property(fc.integer({ min: -25_000, max: 60_000 }), (day) => {
        const textOf = (days: number) => new Date(days * 86_400_000).toISOString().slice(0, 10);
        expect(parseMoment(textOf(day + 1))!.days - parseMoment(textOf(day))!.days).toBe(1);
      }),
      { seed: 3_391 },
    );
  });
});
