import { describe, expect, it } from "vitest";
import { keyDifferenceChart } from "../../src/report/charts/keyDifferenceChart.js";
import { keysChart } from "../../src/report/charts/keysChart.js";
import { keyboardPage } from "../../src/report/html/keyboardPage.js";
import { handMadeKeyboardDocument, handMadeScale } from "./handMadeKeyboard.js";
import { dataOf, HOSTILE, pageOf, QUOTES } from "./pageOf.js";

describe("keyboardPage", () => {
  it("says first what to do, then shows the keys of both strings, and how they differ", () => {
    const page = keyboardPage(handMadeKeyboardDocument("top", "second"), ["bench.yaml"]);
    const html = pageOf(page);
    expect(page.answer).toEqual(["Move the bridge first.", "Then turn the tangent of key 5."]);
    expect(page.sections.filter(({ blocks }) => blocks.length > 0).map(({ heading }) => heading)).toEqual([
      "Keys of top",
      "Keys of second",
      "top against second",
      "The body, as these keys show it",
      "Cautions",
      "Cautions for second",
      "What the words mean",
      "How it was measured",
    ]);
    expect(html).toContain("Files: top.wav, second.wav");
    expect(html).toContain("Also read: bench.yaml");
  });

  it("draws what a shift of the bridge explains, and what it leaves", () => {
    const [fitted] = dataOf(keysChart(handMadeScale("top")), "line");
    // 2^(12/12) - 1 = 1: an octave up it is the whole of the 10 cents.
    expect(fitted!.find(([key]) => key === 12)?.[1]).toBeCloseTo(10, 9);
    const [off, left] = dataOf(keysChart(handMadeScale("top")), "scatter");
    expect(off).toHaveLength(12);
    for (const [i, [key, cents]] of off!.entries()) {
      const line = fitted!.find(([one]) => one === key)![1]!;
      expect(cents! - left![i]![1]!).toBeCloseTo(line, 9);
    }
  });

  it("draws no line where no shift is shown", () => {
    const scale = handMadeScale("top");
    const chart = keysChart({ ...scale, pattern: { ...scale.pattern, bridgeCents: null } });
    expect(dataOf(chart, "line")).toEqual([]);
    expect(chart.description).not.toContain("left");
  });

  it("says of each key in words whether two strings disagree", () => {
    const { differences } = handMadeKeyboardDocument("top", "second");
    expect(keyDifferenceChart(differences, "top", "second", 0).description).toContain(
      "key 1 (N1) +5.0, disagree",
    );
  });

  it("is whole without any key, and shows names as they are written", () => {
    const empty = { ...handMadeKeyboardDocument(HOSTILE), keys: [], bodyCurve: [] };
    expect(pageOf(keyboardPage(empty))).not.toContain("<svg");
    const html = pageOf(keyboardPage(handMadeKeyboardDocument(HOSTILE, QUOTES)));
    expect(html).toContain("Keys of &lt;script&gt;");
    expect(html).toContain("Not heard: key 13 &lt;b&gt;.");
  });
});
