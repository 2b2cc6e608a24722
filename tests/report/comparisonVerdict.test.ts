import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ComparisonFindingCode, MeasureComparison } from "../../src/comparison/Comparison.js";
import { comparisonVerdict } from "../../src/report/comparisonVerdict.js";
import { handMadeComparison, handMadeMeasure } from "./handMadeComparison.js";

function verdictOf(
  measures: readonly Partial<MeasureComparison>[],
  equalGain = false,
  codes: readonly ComparisonFindingCode[] = [],
) {
  return comparisonVerdict(
    handMadeComparison({
      measures: measures.map(handMadeMeasure),
      findings: codes.map((code) => ({ code, severity: "warning", values: {} })),
    }),
    equalGain,
  );
}
const notShown: Partial<MeasureComparison> = {
  difference: -0.4,
  interval95: [-1.52, 0.72],
  pAdjusted: 0.4,
  verdict: "not-shown",
};
const level: Partial<MeasureComparison> = {
  measure: "lowLevelDb",
  primary: false,
  difference: 1.5,
  interval95: [0.6, 2.4],
};

describe("comparisonVerdict", () => {
  it("says what was shown, how surely, from how many takes, and of what", () => {
    expect(verdictOf([{}])).toEqual([
      "Pear has a larger low part than Maple by 2.0 dB (95 % between 1.2 and 2.8, 3 takes a side, these instruments, this " +
        "player, room and microphone).",
    ]);
    // Side b larger: both ends of the interval are given as sizes, the smaller first.
    expect(
      verdictOf([{ difference: -2, interval95: [-2.8, -1.2], verdict: "b-higher", takesB: [1, 2, 3, 4] }])[0],
    ).toMatch(
      /^Maple has a larger low part than Pear by 2\.0 dB \(95 % between 1\.2 and 2\.8, 3 and 4 takes,/,
    );
  });

  it("rounds the ends of an interval outward, so that what lies in it lies in the printed one", () => {
    expect(verdictOf([{ interval95: [1.29, 2.71] }])[0]).toContain("95 % between 1.2 and 2.8");
    expect(verdictOf([{ difference: -2, interval95: [-2.71, -1.29], verdict: "b-higher" }])[0]).toContain(
      "95 % between 1.2 and 2.8",
    );
    // Plainly rounded this would read as if 0 were not inside.
    expect(verdictOf([{ ...notShown, difference: 2, interval95: [-0.04, 4.04] }])[0]).toContain(
      "95 % between -0.1 and +4.1",
    );
  });

  it("calls neither side larger where the readings are the same", () => {
    const same = { difference: 0.01, interval95: null, pAdjusted: null, verdict: "not-shown" as const };
    expect(verdictOf([{ ...same, takesA: [-4], takesB: [-4] }])[0]).toMatch(
      /^The low parts of Pear and Maple read alike to 0\.1 dB, but from one take a side/,
    );
    expect(verdictOf([same])[0]).toMatch(
      /^The low parts of Pear and Maple read alike to 0\.1 dB; how surely/,
    );
  });

  it("says what could have been missed where nothing was shown, and how many takes would do", () => {
    expect(verdictOf([notShown])).toEqual([
      "No difference of the low part is shown between Pear and Maple (-0.4 dB, 95 % between -1.6 and +0.8, 3 takes a side). With " +
        "takes that scatter like these a difference of up to 1.3 dB could well have been missed; about 5 takes a side would show 1 dB " +
        "in four cases of five.",
    ]);
    // 1 dB would have been shown with these takes: no more are needed. Nothing known: nothing said.
    expect(verdictOf([{ ...notShown, smallestDetectable: 0.8 }])[0]).toMatch(
      /0\.8 dB could well have been missed\.$/,
    );
    expect(verdictOf([{ ...notShown, takesForOneDb: null }])[0]).toMatch(
      /1\.3 dB could well have been missed\.$/,
    );
    expect(verdictOf([{ ...notShown, smallestDetectable: null }])[0]).toMatch(/3 takes a side\)\.$/);
  });

  it("does not let the interval of one pair say what several pairs together don't", () => {
    const beyond = verdictOf([{ ...notShown, difference: 1, interval95: [0.1, 1.9] }])[0];
    expect(beyond).toMatch(/^No difference .* That interval is of this pair by itself;/);
    expect(verdictOf([notShown])[0]).not.toContain("by itself");
  });

  it("says that single takes prove nothing", () => {
    const single = {
      takesA: [-4],
      takesB: [-6],
      interval95: null,
      pAdjusted: null,
      verdict: "not-shown" as const,
    };
    expect(verdictOf([single])).toEqual([
      "The low part of Pear reads 2.0 dB larger than that of Maple, but from one take a side nothing says whether that is the " +
        "instrument or the placing. It proves nothing yet.",
    ]);
    expect(verdictOf([{ ...single, takesB: [-6, -6.1] }])[0]).toContain(
      "but from 1 and 2 takes nothing says",
    );
  });

  it("claims nothing of copies", () => {
    expect(
      verdictOf([{ interval95: null, pAdjusted: null, verdict: "not-shown" }], false, ["no-scatter"]),
    ).toEqual([
      "The low part of Pear reads 2.0 dB larger than that of Maple; how surely can't be said, since the takes of a side don't differ at all." +
        " What is said under Fairness weakens this.",
    ]);
  });

  it('has "more" with equal gain only, and only where the level is shown to be higher on the same side', () => {
    const more =
      "It is more low register too: Pear is 1.5 dB louder there (95 % between 0.6 and 2.4), the recordings having one gain.";
    const less =
      "Whether it is more low register, and not only less of the rest, is not shown: the levels of the low part don't differ surely.";
    expect(verdictOf([{}, level], true)[0]).toMatch(new RegExp(`${more.replace(/[().]/g, "\\$&")}$`));
    expect(verdictOf([{}, { ...level, verdict: "not-shown" }], true)[0].endsWith(less)).toBe(true);
    expect(
      verdictOf([{}, { ...level, difference: -1.5, interval95: [-2.4, -0.6], verdict: "b-higher" }], true)[0],
    ).not.toContain("It is more");
    expect(verdictOf([{}, level], false)[0]).not.toContain("more");
    // The level against another side is not this pair's.
    expect(verdictOf([{}, { ...level, sideB: "Plum" }], true)[0]).not.toContain("more");
  });

  it.each<ComparisonFindingCode>([
    "low-cut-differs",
    "codecs-differ",
    "band-limit-differs",
    "noise-differs",
    "gain-control-used",
    "clipping-present",
    "tunings-differ",
    "no-scatter",
  ])("is weakened by %s", (code) => {
    expect(verdictOf([{}], false, [code])[0]).toMatch(/ What is said under Fairness weakens this\.$/);
  });

  it("is weakened by what concerns its own two sides only", () => {
    const weakened = (code: ComparisonFindingCode, values: Readonly<Record<string, string>>) =>
      comparisonVerdict(
        handMadeComparison({
          measures: [handMadeMeasure(), handMadeMeasure({ sideB: "Plum" })],
          findings: [{ code, severity: "warning", values }],
        }),
        false,
      ).map((sentence) => sentence.includes("weakens this"));
    expect(weakened("noise-differs", { sideA: "Pear", sideB: "Plum" })).toEqual([false, true]);
    expect(weakened("clipping-present", { side: "Maple" })).toEqual([true, false]);
    expect(weakened("clipping-present", { side: "Pear" })).toEqual([true, true]);
    expect(weakened("no-scatter", { sides: "Plum" })).toEqual([false, true]);
  });

  it("is not weakened by what does no harm, has one sentence a pair, and none without a low part", () => {
    expect(
      verdictOf([{}], false, ["sample-rates-differ", "no-body-curve", "reach-below-lowest"])[0],
    ).not.toContain("weakens");
    expect(verdictOf([{}, { ...notShown, sideB: "Plum" }])).toHaveLength(2);
    expect(verdictOf([])).toEqual([]);
    expect(verdictOf([{ sideA: "Pe\u001b[31mar\n" }])[0]).not.toMatch(/\p{Cc}/u);
  });

  it("never says more than was shown, whatever the numbers", () => {
    const number = fc.double({ min: -60, max: 60, noNaN: true });
    const interval = fc.option(fc.tuple(number, fc.double({ min: 0, max: 20, noNaN: true })), { nil: null });
    const verdict = fc.constantFrom<MeasureComparison["verdict"]>("a-higher", "b-higher", "not-shown");
    const takes = fc.array(number, { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(
        number,
        interval,
        verdict,
        verdict,
        takes,
        takes,
        fc.option(number, { nil: null }),
        fc.boolean(),
        (difference, spread, shown, levelShown, takesA, takesB, detectable, equalGain) => {
          const interval95 =
            spread === null ? null : ([difference - spread[1], difference + spread[1]] as const);
          const [sentence] = verdictOf(
            [
              {
                difference,
                interval95,
                verdict: shown,
                takesA,
                takesB,
                smallestDetectable: detectable && Math.abs(detectable),
              },
              { ...level, verdict: levelShown },
            ],
            equalGain,
          );
          if (!equalGain) expect(sentence).not.toMatch(/\bmore\b|louder/);
          if (shown === "not-shown" || interval95 === null || Math.min(takesA.length, takesB.length) < 2) {
            expect(sentence).not.toMatch(/ has a larger low part|It is more/);
          }
          expect(sentence).not.toMatch(/NaN|undefined|null|Infinity|-0\.0/);
        },
      ),
      { numRuns: 500, seed: 5_120 },
    );
  });
});
