import { describe, expect, it } from "vitest";
import { bodyLines } from "../../src/report/bodyLines.js";
import { lowStringLines } from "../../src/report/lowStringLines.js";

type Body = Parameters<typeof bodyLines>[0];
type LowString = Parameters<typeof lowStringLines>[0][number];

const point = (frequencyHz: number, levelDb: number | null, half = 3): Body["bodyCurve"][number] => ({
  frequencyHz,
  levelDb,
  interval95Db: levelDb === null ? null : [levelDb - half, levelDb + half],
  partialCount: levelDb === null ? 0 : 2,
});
const body = (given: Partial<Body> = {}): Body => ({
  bodyCurve: [point(63.1, -8.2), point(79.4, null), point(100, 3.6), point(1000, 0)],
  bodyCurveLacking: null,
  lowReachHz: 87.3,
  lowReachIsAtOrBelow: false,
  lowReachRange95Hz: [66.1, 120.4],
  ...given,
});
const text = (lines: readonly string[]) => lines.map((line) => line.trim()).join(" ");

describe("bodyLines", () => {
  it("gives the low end with its intervals, and how low the body carries", () => {
    const said = text(bodyLines(body(), 200));
    // Interval ends are rounded outward: -8.2 - 3 = -11.2, -8.2 + 3 = -5.2.
    expect(said).toContain("63 Hz -8 (-12 to -5), 100 Hz +4 (0 to +7).");
    expect(said).not.toContain("79 Hz");
    expect(said).not.toContain("1000 Hz");
    expect(said).toContain("down to about 87 Hz (95 %: 66 to 120)");
  });

  it("says 'or lower' where even the lowest partial passes, and how far down is sure", () => {
    const passing = { lowReachIsAtOrBelow: true, lowReachHz: 65.4 };
    expect(text(bodyLines(body({ ...passing, lowReachRange95Hz: [65.4, 81.2] }), 200))).toContain(
      "down to 65 Hz or lower (95 %: to 82 Hz at least): even the lowest",
    );
    expect(text(bodyLines(body({ ...passing, lowReachRange95Hz: [65.4, 65.4] }), 200))).toContain(
      "down to 65 Hz or lower: even the lowest partial played reads within 10 dB",
    );
    expect(text(bodyLines(body({ ...passing, lowReachRange95Hz: null }), 200))).toContain(
      "65 Hz or lower: even",
    );
  });

  it.each([
    ["too-few-partials", "Too few partials"],
    ["strings-not-connected", "share no part of the range"],
    ["no-reference", "between 355 and 1413 Hz"],
  ] as const)("says why there is none: %s", (bodyCurveLacking, words) => {
    expect(text(bodyLines(body({ bodyCurve: [], bodyCurveLacking, lowReachHz: null }), 200))).toContain(
      words,
    );
  });
});

const low = (given: Partial<LowString> = {}): LowString => ({
  string: "C2",
  lowLevelDb: -31,
  restLevelDb: -27,
  carriers: [2, 3, 4],
  fundamentalBelowEvenDb: 14,
  fundamentalInterval95Db: [9, 19],
  partials: [],
  ...given,
});

describe("lowStringLines", () => {
  it("says through which partials a low string is heard, and how its fundamental arrives", () => {
    expect(text(lowStringLines([low()], 177.8, 200))).toBe(
      "C2 is heard through partials 2 to 4; its fundamental arrives 14 dB under what an even body would give (95 %: +9 to +19).",
    );
  });

  it.each([
    [[1], "its fundamental alone"],
    [[3], "partial 3"],
    [[1, 2], "partials 1 and 2"],
    [[1, 2, 4], "partials 1, 2 and 4"],
    [[1, 2, 3, 6, 8], "partials 1 to 3, 6 and 8"],
  ])("lists %j as %s", (carriers, words) => {
    expect(text(lowStringLines([low({ carriers })], 177.8, 200))).toContain(`is heard through ${words};`);
  });

  it("claims nothing of a fundamental whose range holds 0, nor where nothing is known", () => {
    const open = text(
      lowStringLines([low({ fundamentalBelowEvenDb: 2, fundamentalInterval95Db: [-3, 7] })], 177.8, 200),
    );
    expect(open).toContain("can't be said");
    expect(open).not.toContain("arrives");
    const unknown = low({ fundamentalBelowEvenDb: null, fundamentalInterval95Db: null });
    expect(text(lowStringLines([unknown], 177.8, 200))).toBe("C2 is heard through partials 2 to 4.");
    expect(lowStringLines([low({ carriers: [] })], 177.8, 200)).toEqual([]);
  });

  it("sets the strings against each other, and says which brings more middle than low", () => {
    const strings = [
      low(),
      low({ string: "G2", lowLevelDb: -25, restLevelDb: -29 }),
      low({ string: "C3", lowLevelDb: null }),
    ];
    const said = text(lowStringLines(strings, 200, 400));
    expect(said).toContain(
      "below and above 200 Hz, dB full scale: C2 -31 and -27 (more middle than low); G2 -25 and -29 (more low than middle).",
    );
    expect(said).not.toContain("C3 -");
  });
});
