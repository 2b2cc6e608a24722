import { describe, expect, it } from "vitest";
import { bodyLines } from "../../src/report/bodyLines.js";

function linesOf(given: Partial<Parameters<typeof bodyLines>[0]>): string {
  return bodyLines(
    {
      bodyCurve: [{ frequencyHz: 63.1, levelDb: -4, interval95Db: [-16, 8], partialCount: 1 }],
      bodyCurveLacking: null,
      lowReachHz: 65.4,
      lowReachIsAtOrBelow: true,
      lowReachRange95Hz: [65.4, 81.2],
      ...given,
    },
    80,
  )
    .join(" ")
    .replace(/\s+/g, " ");
}

describe("bodyLines", () => {
  it("says how far down is sure where the lowest partial only reads as if it passed", () => {
    expect(linesOf({})).toContain(
      "It carries down to 65 Hz or lower (95 %: to 82 Hz at least): even the lowest",
    );
    const sure = linesOf({ lowReachRange95Hz: [65.4, 65.4] });
    expect(sure).toContain(
      "It carries down to 65 Hz or lower: even the lowest partial played reads within 10 dB",
    );
    expect(linesOf({ lowReachRange95Hz: null })).toContain("65 Hz or lower: even");
  });

  it("gives the range of a reach that was found, and the reason for a curve that was not", () => {
    expect(linesOf({ lowReachIsAtOrBelow: false, lowReachHz: 92, lowReachRange95Hz: [80, 110] })).toContain(
      "It carries down to about 92 Hz (95 %: 80 to 110): what lies lower",
    );
    expect(linesOf({ lowReachHz: null })).not.toContain("carries");
    expect(linesOf({ bodyCurve: [], bodyCurveLacking: "no-reference" })).toContain(
      "can't be had. Too little was heard",
    );
  });
});
