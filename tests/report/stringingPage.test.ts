import { describe, expect, it } from "vitest";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { tensionChart } from "../../src/report/charts/tensionChart.js";
import { stringingPage } from "../../src/report/html/stringingPage.js";
import { stringingDocument } from "../../src/report/stringingDocument.js";
import { readStringing } from "../../src/stringing/readStringing.js";
import { dataOf, pageOf } from "./pageOf.js";

const strung = (lengthMm: number, weight = ", linearDensityGramsPerMetre: 1") => {
  const instrument = readInstrument(
    `name: "<i>Bench"\nstrings:\n  - {name: "<b>top", role: melody, note: A4, lengthMm: ${lengthMm}${weight}, capo: [2]}\n`,
  );
  return { instrument, targets: stringTargets(instrument) };
};
const documentOf = (weight?: string) =>
  stringingDocument({
    toolVersion: "0.0.0-test",
    instrument: "<i>Bench",
    against: "<u>other",
    settings: { a4Hz: 440, tonic: null, tensionNewton: null, otherLengthMm: null, retune: {} },
    reading: readStringing(strung(350, weight), null, strung(700, weight)),
  });

describe("stringingPage", () => {
  it("gives the pull, every string, what stands beside it, and cautions", () => {
    const page = stringingPage(documentOf(), ["bench.yaml"]);
    const html = pageOf(page);
    expect(page.answer[0]).toMatch(/^The one string pulls with 95 N/);
    expect(page.sections.map(({ heading }) => heading)).toEqual([
      "Strings",
      "Capos",
      "Beside it: <u>other",
      "Mind",
      "How it was reckoned",
    ]);
    expect(html).toContain("&lt;b&gt;top");
    expect(html).toContain("Also read: bench.yaml");
  });

  it("draws each tension, and that of the same string there", () => {
    const [here, there] = dataOf(tensionChart(documentOf()), "scatter");
    // Mersenne: (2 * 0.35 m * 440 Hz)^2 * 0.001 kg/m = 94.864 N; twice the length, four times the pull.
    expect(here![0]![0]).toBeCloseTo(94.86, 2);
    expect(there![0]![0]! / here![0]![0]!).toBeCloseTo(4, 3);
  });

  it("is whole where no tension can be given", () => {
    expect(pageOf(stringingPage(documentOf(""), []))).not.toContain("<svg");
  });
});
