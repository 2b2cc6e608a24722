import { describe, expect, it } from "vitest";
import { curveDifferenceChart } from "../../src/report/charts/curveDifferenceChart.js";
import { measuresChart } from "../../src/report/charts/measuresChart.js";
import { takesChart } from "../../src/report/charts/takesChart.js";
import { compareText } from "../../src/report/compareText.js";
import { comparePage } from "../../src/report/html/comparePage.js";
import { handMadeCompareDocument, handMadeComparison, handMadeMeasure } from "./handMadeComparison.js";
import { dataOf, HOSTILE, pageOf, QUOTES } from "./pageOf.js";

const octave = handMadeMeasure({
  measure: "octave63Db",
  primary: false,
  a: -10,
  b: -12,
  takesA: [-11, -9],
  takesB: [-12.5, -11.5],
});
const document = handMadeCompareDocument(handMadeComparison({ measures: [handMadeMeasure(), octave] }));

describe("comparePage", () => {
  const page = comparePage(document, ["long.yaml"]);
  const html = pageOf(page);

  it("gives the answer of the text first, then every take, the pair, fairness and what reproduces it", () => {
    const text = compareText(document, { colour: false, width: 1_000_000 });
    expect(page.answer).toEqual(document.verdict);
    for (const sentence of page.answer) expect(text).toContain(sentence);
    expect(page.sections.map(({ heading }) => heading)).toEqual([
      "Low part, take by take",
      "Other measures, Pear less Maple",
      "Body curve, Pear less Maple",
      "Partials that differ most, Pear less Maple",
      "Fairness",
      "How it was measured",
    ]);
    expect(html).toContain("Pear-1.wav");
    expect(html).toContain("Also read: long.yaml");
  });

  it("has every take in the picture and in its text, at places of their own", () => {
    const chart = takesChart(document);
    const [means, takes] = dataOf(chart, "scatter");
    const { takesA, takesB } = handMadeMeasure();
    expect(takes!.map(([value]) => value).sort()).toEqual([...takesA, ...takesB].sort());
    expect(new Set(takes!.map(([, place]) => place)).size).toBe(6);
    expect(means!.map(([value]) => value)).toEqual([-4, -6]);
    for (const said of ["-4.3, -3.7, -4.0", "-6.4, -5.6, -6.0"]) expect(chart.description).toContain(said);
  });

  it("sets the takes of other measures around their difference", () => {
    const [difference, a, b] = dataOf(measuresChart(document.measures.slice(1), "Pear", "Maple"), "scatter");
    expect(difference).toEqual([[2, 0]]);
    // a less the mean of b, and the mean of a less b: both have the difference of the means as their mean.
    expect(a!.map(([value]) => value)).toEqual([1, 3]);
    expect(b!.map(([value]) => value)).toEqual([2.5, 1.5]);
  });

  it("fills only the points that are shown to differ", () => {
    const chart = curveDifferenceChart(document.bodyCurveDifference, "Pear", "Maple");
    expect(chart.description).toContain("shown to differ: 63 Hz +2.5.");
    expect(dataOf(chart, "line")[0]).toHaveLength(2);
  });
});

describe("comparePage with little to show", () => {
  it("is whole where nothing can be compared", () => {
    const nothing = handMadeCompareDocument(
      handMadeComparison({
        sounds: [],
        measures: [],
        partialDifferences: [],
        bodyCurveDifference: [],
        ranking: [],
      }),
    );
    const page = comparePage({ ...nothing, verdict: [] });
    expect(page.answer).toEqual(["Nothing can be said; see Fairness."]);
    expect(pageOf(page)).not.toContain("<svg");
  });

  it("draws single takes, which have no interval", () => {
    const single = handMadeMeasure({
      takesA: [-4],
      takesB: [-6],
      sdA: null,
      sdB: null,
      interval95: null,
      pAdjusted: null,
      verdict: "not-shown",
    });
    const ranking = [
      { name: "Pear", takeCount: 1, lowRegisterDb: -4, interval95Db: null },
      { name: "Maple", takeCount: 1, lowRegisterDb: -6, interval95Db: null },
    ];
    pageOf(comparePage(handMadeCompareDocument(handMadeComparison({ measures: [single], ranking }))));
  });

  it("shows names as they are written, whatever is in them", () => {
    const written = JSON.stringify(handMadeComparison({ measures: [handMadeMeasure(), octave] }))
      .replaceAll("Pear", HOSTILE)
      .replaceAll("Maple", JSON.stringify(QUOTES).slice(1, -1));
    const html = pageOf(comparePage(handMadeCompareDocument(JSON.parse(written))));
    expect(html).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
    expect(html).toContain("&quot;&#39;&gt;&lt;img src=x");
  });
});
