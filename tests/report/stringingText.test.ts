import { describe, expect, it } from "vitest";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { stringingDocument } from "../../src/report/stringingDocument.js";
import { stringingText } from "../../src/report/stringingText.js";
import { readStringing } from "../../src/stringing/readStringing.js";
import { stringingDocumentSchema } from "../../src/stringing/stringingDocumentSchema.js";

const documentOf = (strings: string, tensionNewton: number | null = null) => {
  const instrument = readInstrument(`name: "in\\u202Avented"\nstrings:\n${strings}`.replace("\\u202A", ""));
  const strung = { instrument, targets: stringTargets(instrument) };
  return stringingDocument({
    toolVersion: "0.0.0-test",
    instrument: instrument.name,
    against: null,
    settings: { a4Hz: 440, tonic: null, tensionNewton, otherLengthMm: null, retune: {} },
    reading: readStringing(strung, tensionNewton, null),
  });
};
const said = (strings: string) =>
  stringingText(documentOf(strings), { colour: false, width: 100 }).replace(/\s+/g, " ");
const steel = (note: string, lengthMm: number, diameterMm = 0.4) =>
  `  - {name: one, role: melody, note: ${note}, lengthMm: ${lengthMm}, diameterMm: ${diameterMm}, material: steel}\n`;

describe("stringingText", () => {
  it("warns of a wire that is near breaking or past it, and of no other", () => {
    // A4 on 350 mm is at 29 %; f L decides: 75 % is reached at 700 Hz, F5 698 Hz stays under, F#5 740 Hz is over, B5 988 Hz would break.
    expect(said(steel("A4", 350))).not.toMatch(/three quarters|would break/);
    expect(said(steel("F5", 350))).not.toMatch(/three quarters|would break/);
    expect(said(steel("F#5", 350))).toContain("one: past three quarters of what its wire holds. It may snap");
    expect(said(steel("B5", 350))).toContain("one: would break before this pitch");
  });

  it("gives newtons and kilograms-force, and always the cautions", () => {
    // 93.58 N / 9.80665 = 9.542 kgf (the kilogram-force is defined by standard gravity).
    const text = said(steel("A4", 350));
    expect(text).toContain("93.6 (9.5)");
    expect(text).toContain("The one string pulls with 94 N (9.5 kgf)");
    expect(text).toContain("protect your eyes");
    expect(text).toContain("The string maker's limits come first");
  });

  it("warns of a string that would break as it is tuned beside it", () => {
    const at = (note: string) => {
      const instrument = readInstrument(`name: one\nstrings:\n${steel(note, 350)}`);
      return { instrument, targets: stringTargets(instrument) };
    };
    const retuned = (note: string) =>
      stringingText(
        stringingDocument({
          toolVersion: "0.0.0-test",
          instrument: "one",
          against: "retuned",
          settings: {
            a4Hz: 440,
            tonic: null,
            tensionNewton: null,
            otherLengthMm: null,
            retune: { one: note },
          },
          reading: readStringing(at("A4"), null, at(note)),
        }),
        { colour: false, width: 100 },
      ).replace(/\s+/g, " ");
    // The same limits as above: F5 stays under three quarters, F#5 is over, B5 would break.
    expect(retuned("F5")).not.toMatch(/three quarters|would break/);
    expect(retuned("F#5")).toContain("beside it, one: past three quarters of what its wire holds");
    expect(retuned("B5")).toContain("beside it, one: would break before that pitch");
  });

  it("asks for weight and length where they are not known", () => {
    const text = said(
      "  - {role: drone, note: C2}\n  - {role: drone, note: G2, linearDensityGramsPerMetre: 4}\n",
    );
    expect(text).toContain("No tension can be given");
    expect(text).toContain("Not known how heavy: C2.");
    expect(text).toContain("No vibrating length given: G2");
  });

  it("has a document that follows its schema", () => {
    const document = documentOf(steel("A4", 350), 60);
    expect(stringingDocumentSchema.parse(JSON.parse(JSON.stringify(document)))).toEqual(document);
    expect(document.strings[0].tensionKilogramForce).toBeCloseTo(9.542, 3);
  });
});
