import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { momentText } from "../../src/history/momentText.js";
import { parseMoment } from "../../src/history/parseMoment.js";

describe("momentText", () => {
  it("is the clock on the wall", () => {
    // 1 000 000 000 s since 1970 was 2001-09-09T01:46:40 UTC (well known); in Paris in summer it was two hours later.
    expect(momentText(1e12, 0)).toBe("2001-09-09T01:46:40");
    expect(momentText(1e12, -120)).toBe("2001-09-09T03:46:40");
  });

  it("is read back as the same moment, to the second", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4e12 }), fc.integer({ min: -840, max: 720 }), (ms, behind) => {
        const days = parseMoment(momentText(ms, behind))!.days;
        const seconds = days * 86_400 + behind * 60;
        // Days as a double at 50,000 hold a microsecond.
        expect(Math.abs(seconds - Math.floor(ms / 1000))).toBeLessThan(1e-3);
      }),
      { seed: 60_417 },
    );
  });
});
