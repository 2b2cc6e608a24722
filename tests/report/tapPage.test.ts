import { describe, expect, it } from "vitest";
import { modesChart } from "../../src/report/charts/modesChart.js";
import { tapBowChart } from "../../src/report/charts/tapBowChart.js";
import { tapCsv } from "../../src/report/csv/tapCsv.js";
import { tapPage } from "../../src/report/html/tapPage.js";
import { tapText } from "../../src/report/tapText.js";
import { dataOf, HOSTILE, pageOf } from "./pageOf.js";
import { readTapDocument } from "./readTapDocument.js";

const document = readTapDocument(HOSTILE);

describe("tapPage", () => {
  const page = tapPage(document, ["long.yaml"]);
  const html = pageOf(page);

  it("gives the answer of the text, every mode of both bodies, what differs, and how to tell", () => {
    const text = tapText(document, { colour: false, width: 1_000_000 });
    expect(page.answer).toEqual(document.inShort);
    for (const sentence of page.answer) expect(text).toContain(sentence);
    const headings = page.sections.filter(({ blocks }) => blocks.length > 0).map(({ heading }) => heading);
    expect(headings).toEqual(
      expect.arrayContaining([
        "The modes over frequency",
        "What is what",
        "What the words mean",
        "How it was measured",
      ]),
    );
    expect(html).toContain("Also read: long.yaml");
    for (const { modes } of document.takes) {
      for (const { frequencyHz } of modes) expect(html).toContain(`>${frequencyHz.toFixed(1)}`);
    }
  });

  it("draws every mode of every body at its frequency", () => {
    const stems = dataOf(modesChart(document.takes), "custom");
    const counts = document.takes.map(({ modes }) => modes.length);
    expect(stems.filter((_, i) => i % 2 === 0).map(({ length }) => length)).toEqual(counts);
    const [first] = document.takes[0]!.modes;
    // Octaves above MIDI number 0 (440 / 2^(69/12) Hz): arithmetic.
    expect(stems[0]![0]![0]).toBeCloseTo(Math.log2(first!.frequencyHz / (440 / 2 ** (69 / 12))), 9);
  });

  it("lays both curves over each other, empty where a band has no value", () => {
    const band = (frequencyHz: number, tappedDb: number | null, bowedDb: number | null) => ({
      frequencyHz,
      tappedDb,
      tappedInterval95Db: null,
      bowedDb,
      bowedInterval95Db: bowedDb === null ? null : ([bowedDb - 2, bowedDb + 2] as [number, number]),
      peak: frequencyHz === 200 ? ("both" as const) : null,
      modesHz: [],
    });
    const chart = tapBowChart([band(100, -3, null), band(200, 4, 5), band(400, 0, 1)]);
    expect(chart.description).toContain("Peaks in both: 200 Hz");
    const [bowed, tapped] = dataOf(chart, "line");
    expect(tapped!.map(([, level]) => level)).toEqual([-3, 4, 0]);
    expect(bowed!.map(([, level]) => level)).toEqual(["-", 5, 1]);
  });
});

describe("tapCsv", () => {
  it("has one row for each mode, names that are no formulas", () => {
    const [head, ...rows] = tapCsv(readTapDocument("=1+1")).trimEnd().split("\r\n");
    expect(head).toContain("frequencyHz");
    expect(rows).toHaveLength(document.takes.reduce((sum, { modes }) => sum + modes.length, 0));
    for (const row of rows) expect(row.split(",")[1]).toMatch(/^'=1\+1/);
  });
});
