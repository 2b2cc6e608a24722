import { describe, expect, it } from "vitest";
import { strokesChart } from "../../src/report/charts/strokesChart.js";
import { trompetteCsv } from "../../src/report/csv/trompetteCsv.js";
import { trompettePage } from "../../src/report/html/trompettePage.js";
import { trompetteText } from "../../src/report/trompetteText.js";
import { dataOf, HOSTILE, pageOf } from "./pageOf.js";
import { readTrompetteDocument } from "./readTrompetteDocument.js";

const document = readTrompetteDocument(`${HOSTILE}.wav`);

describe("trompettePage", () => {
  const page = trompettePage(document, ["long.yaml"]);
  const html = pageOf(page);

  it("gives the answer of the text, the strokes together and each, the pitch, what to try and cautions", () => {
    const text = trompetteText(document, { colour: false, width: 1_000_000 });
    expect(page.answer).toEqual(document.inShort);
    for (const sentence of page.answer) expect(text).toContain(sentence);
    const headings = page.sections.filter(({ blocks }) => blocks.length > 0).map(({ heading }) => heading);
    expect(headings).toEqual(
      expect.arrayContaining([
        "Strokes",
        "Strokes together",
        "Pitch",
        "Each stroke",
        "What to try",
        "Caution",
      ]),
    );
    expect(html).toContain("Also read: long.yaml");
  });

  it("draws every stroke when it begins and as strong as it is", () => {
    const drawn = dataOf(strokesChart(document), "scatter").flat();
    for (const { onsetSeconds, strengthDb } of document.strokes) {
      expect(drawn).toContainEqual([onsetSeconds, strengthDb]);
    }
    expect(document.strokes.length).toBeGreaterThan(7);
    expect(drawn).toHaveLength(document.strokes.length + document.missedSeconds.length);
  });

  it("has no drawing without strokes", () => {
    const silent = { ...document, strokes: [], state: "none" as const, strengthDb: null };
    expect(pageOf(trompettePage(silent))).not.toContain("<figure>");
  });
});

describe("trompetteCsv", () => {
  it("has one row for each stroke, times as in the document", () => {
    const [head, ...rows] = trompetteCsv(readTrompetteDocument("-x.wav")).trimEnd().split("\r\n");
    expect(head).toMatch(
      /file,stroke,onsetSeconds,withinSeconds,durationSeconds,strengthDb,weak,strokeSeconds,strokeWithinSeconds$/,
    );
    expect(rows).toHaveLength(document.strokes.length);
    const [file, number, onset] = rows[0]!.split(",");
    expect([file, number, onset]).toEqual(["'-x.wav", "1", String(document.strokes[0]!.onsetSeconds)]);
  });
});
