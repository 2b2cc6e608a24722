import { describe, expect, it } from "vitest";
import { compareMeasure, judged } from "../../src/comparison/compareMeasure.js";

const A = [78.1, 78.9, 77.6, 78.4, 78.2];
const B = [79.6, 80.3, 79.1, 80.0, 79.9];
const compared = (takesA: number[], takesB: number[], primary = true) =>
  compareMeasure({
    measure: primary ? "lowRegisterDb" : "centroidHz",
    string: null,
    primary,
    sideA: "A",
    sideB: "B",
    takesA,
    takesB,
  });

describe("judged", () => {
  it("is Welch's test (worked example after Welch 1947 and Satterthwaite 1946, computed)", () => {
    const plain = compared(A, B);
    const found = judged(plain, plain.welch.p, 1);
    expect(found.difference).toBeCloseTo(-1.54, 6);
    expect(found.interval95![0]).toBeCloseTo(-2.21642, 4);
    expect(found.interval95![1]).toBeCloseTo(-0.86358, 4);
    expect(found.pAdjusted).toBeCloseTo(0.000776, 6);
    expect(found).toMatchObject({ verdict: "b-higher", unit: "dB", takesA: A, takesB: B });
    const turned = compared(B, A);
    expect(judged(turned, turned.welch.p, 1)).toMatchObject({ verdict: "a-higher" });
  });

  it("shows the primary measure below 0.05, any other below 0.02 only", () => {
    expect(judged(compared(A, B), 0.049, 1).verdict).toBe("b-higher");
    expect(judged(compared(A, B), 0.05, 1).verdict).toBe("not-shown");
    expect(judged(compared(A, B, false), 0.021, 30)).toMatchObject({ verdict: "not-shown", unit: "Hz" });
    expect(judged(compared(A, B, false), 0.019, 30).verdict).toBe("b-higher");
    expect(judged(compared(A, B), null, 1).verdict).toBe("not-shown");
  });

  it("says what could have been shown, at the level used", () => {
    // Welch's test at 4 takes a side: 2.50 standard deviations at 5 % with 80 % power (simulated, from outside the project).
    const plain = compared([0, 1, 2, 3], [10, 11, 12, 13]);
    const sd = Math.sqrt(5 / 3);
    expect(judged(plain, plain.welch.p, 1).smallestDetectable! / sd).toBeCloseTo(2.5, 1);
    expect(judged(plain, plain.welch.p, 10).smallestDetectable!).toBeGreaterThan(1.3 * 2.5 * sd);
    // 17 a side: t tables (Cohen 1988, from memory) give 1 sd at 80 % power; here 1 dB is 0.775 sd, which needs about 28.
    expect(judged(plain, plain.welch.p, 1).takesForOneDb).toBeGreaterThan(24);
    expect(judged(plain, plain.welch.p, 1).takesForOneDb).toBeLessThan(32);
    expect(judged(compared(A, B, false), 0.5, 1).takesForOneDb).toBeNull(); // hertz
  });

  it("has no interval where takes don't differ more than copies of one file", () => {
    for (const nudge of [0, 1e-12, 2e-4]) {
      const plain = compared([-4, -4 + nudge, -4], [-6, -6, -6 + nudge]);
      expect(plain.welch.lacking).toBe("no-spread");
      expect(judged(plain, null, 0)).toMatchObject({
        verdict: "not-shown",
        interval95: null,
        pAdjusted: null,
        smallestDetectable: null,
        takesForOneDb: null,
      });
    }
    expect(compared([-4, -4.1, -4], [-6, -6, -6]).welch.lacking).toBeNull();
    expect(compared([-4], [-6, -6.5]).welch).toMatchObject({ lacking: "too-few", difference: 2.25, p: null });
  });
});
