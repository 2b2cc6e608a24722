import { describe, expect, it } from "vitest";
import { displayWidth } from "../../src/report/displayWidth.js";
import { measureText } from "../../src/report/measureText.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";

const unsafe = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]/;

function text(document = handMadeDocument()): string {
  return measureText(document, { colour: false });
}

describe("measureText", () => {
  it("shows target, pitch, deviation with interval, steadiness, level and low register of a string", () => {
    const row = text()
      .split("\n")
      .find((line) => line.startsWith("C2 "));
    expect(row?.split(/\s{2,}/)).toEqual([
      "C2",
      "65.406",
      "65.501",
      "+2.5",
      "+2.1 to +2.9",
      "1.1",
      "-21.3",
      "-4.1",
    ]);
  });

  it("shows pairs by cents from pure and by beats, with intervals and how to slow them", () => {
    const row = text()
      .split("\n")
      .find((line) => line.startsWith("C2 - G2"));
    // 3 times 65.50091 Hz is the common partial, 196.50 Hz: 3.7 and 4.8 cents of it are 0.420 and 0.544 Hz.
    expect(row?.split(/\s{2,}/)).toEqual(["C2 - G2", "3:2", "-4.3", "-4.8 to -3.7", "0.48", "0.42 to 0.54"]);
    expect(text()).toContain("- is\n  narrow");
  });

  it("says which pairs did not sound together, and marks them only among others that did", () => {
    const [together] = handMadeTake().pairs;
    const alone = { ...together!, upper: "C2", basis: "in-turn" as const };
    const sheet = (pairs: readonly (typeof alone | typeof together)[]) =>
      text(handMadeDocument([handMadeTake({ pairs: pairs.map((pair) => pair!) })])).replace(/\s+/g, " ");
    expect(sheet([alone])).toContain("All are worked out from each string heard alone");
    expect(sheet([alone])).not.toContain("*");
    expect(sheet([together, alone])).toContain("C2 - C2 *");
    expect(sheet([together])).not.toContain("heard alone");
  });

  it("gives the common pitch, own errors, the low register and the recording's findings", () => {
    const sheet = text().replace(/\s+/g, " ");
    expect(sheet).toContain("A4 = 440.30 Hz, +1.2 cents from the pitch asked for (95 %: +0.4 to +2.0)");
    expect(sheet).toContain("C2 +1.3, G2 +1.3");
    expect(sheet).toContain("against the rest (178 to 2818 Hz): -5.0 dB");
    expect(sheet).toContain("63 Hz -12.0, 125 Hz -6.1, 250 Hz -5.0, 500 Hz -8.0, 1000 Hz -12.0, 2000 Hz -.");
    expect(sheet).toContain("can't be had from one take");
    expect(sheet).toContain("warning Mains hum (50 Hz and multiples, strongest at 150 Hz) at -52.3 dB");
  });

  it("shows no number where there is none", () => {
    const silent = handMadeString({
      name: "G3",
      status: "not-heard",
      frequencyHz: null,
      deviationCents: null,
      interval95Cents: null,
      ownErrorCents: null,
      unsteadinessCents: null,
      levelDb: null,
      lowRegisterDb: null,
    });
    const row = text(handMadeDocument([handMadeTake({ strings: [silent] })]))
      .split("\n")
      .find((line) => line.startsWith("G3 "));
    expect(row?.split(/\s{2,}/)).toEqual(["G3", "65.406", "not heard", "-", "-", "-", "-", "-"]);
  });

  it("fits 80 columns, also with long names and large numbers", () => {
    const strings = [
      handMadeString({
        name: "the chanterelle nearest to the player",
        deviationCents: -123.45,
        interval95Cents: [-133.3, -113.3],
      }),
      handMadeString({ name: "低音弦低音弦低音弦", targetHz: 1046.502, frequencyHz: 1046.5 }),
    ];
    const pairs = [{ ...handMadeTake().pairs[0]!, lower: strings[0]!.name, upper: strings[1]!.name }];
    const document = handMadeDocument([handMadeTake({ strings, pairs }), handMadeTake()]);
    const tooWide = text(document)
      .split("\n")
      .filter((line) => displayWidth(line) > 80);
    expect(tooWide).toEqual([]);
  });

  it("lets no control character out of a name into the sheet", () => {
    const name = "C2\u001b[2J\u202e\u2028\u0085\n";
    const take = handMadeTake({
      strings: [handMadeString({ name })],
      pairs: [{ ...handMadeTake().pairs[0]!, lower: name }],
      findings: [{ code: "unmatched-passage", severity: "info", values: { strings: name } }],
    });
    const document = handMadeDocument([take, take], { file: `${name}.wav`, instrument: name });
    document.settings.tonic = name;
    document.settings.capo = { [name]: 2 };
    document.failed = [{ file: name, code: "recording-empty", message: "x" }];
    expect(unsafe.test(text(document))).toBe(false);
    expect(text(document)).toContain("C2\\u{1b}[2J");
  });

  it("says the same with and without colour", () => {
    const coloured = measureText(handMadeDocument(), { colour: true });
    expect(coloured).toContain("\u001b[");
    expect(coloured.replace(/\u001b\[\d+m/g, "")).toBe(text());
    expect(unsafe.test(text())).toBe(false);
  });

  it("joins several takes, and says so of a single one only by leaving it out", () => {
    const other = handMadeTake({ strings: [handMadeString({ deviationCents: 3.5 })] });
    expect(text()).not.toContain("All takes together");
    const sheet = text(handMadeDocument([handMadeTake(), other]));
    const row = sheet
      .slice(sheet.indexOf("All takes together"))
      .split("\n")
      .find((line) => line.startsWith("C2 "));
    // Mean 3, sd 0.7071, t(1) = 12.706: half width 12.706 * 0.7071 / sqrt 2 = 6.35.
    expect(row?.split(/\s{2,}/).slice(0, 5)).toEqual(["C2", "2", "+3.0", "-3.4 to +9.4", "0.7"]);
  });

  it("says that without an instrument the nearest note is the target", () => {
    expect(text(handMadeDocument(undefined, { instrument: null }))).toContain("nearest note");
  });
});
