import { describe, expect, it } from "vitest";
import { displayWidth } from "../../src/report/displayWidth.js";
import { measureText } from "../../src/report/measureText.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";
import { plannedDocument } from "./handMadePairs.js";

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
    // 3 times 65.50091 Hz is the common partial, 196.50 Hz: -3.7 and -4.8 cents of it are 0.4195 and 0.5441 Hz, rounded
    // outward.
    expect(row?.split(/\s{2,}/)).toEqual(["C2 - G2", "3:2", "-4.3", "-4.8 to -3.7", "0.48", "0.41 to 0.55"]);
    expect(text()).toContain("- is narrow");
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
    expect(sheet).toContain("44.7-178 Hz against 178-2818 Hz: -5.0 dB");
    expect(sheet).toContain("63 Hz -12.0, 125 Hz -6.1, 250 Hz -5.0, 500 Hz -8.0, 1000 Hz -12.0, 2000 Hz -.");
    expect(sheet).toContain("only several takes tell");
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
    // The summary first, then each take, shorter than by itself.
    expect(sheet.indexOf("All takes together")).toBeLessThan(sheet.indexOf("drones.wav"));
    expect(sheet.split("drones.wav")).toHaveLength(3);
    expect(sheet).not.toMatch(/Pairs of strings|Low register\n/);
    const row = sheet
      .slice(sheet.indexOf("All takes together"))
      .split("\n")
      .find((line) => line.startsWith("C2 "));
    // Mean 3, sd 0.7071, t(1) = 12.706: half width 12.706 * 0.7071 / sqrt 2 = 6.35.
    expect(row?.split(/\s{2,}/).slice(0, 5)).toEqual(["C2", "2", "+3.0", "-3.4 to +9.4", "0.7"]);
  });

  it("has a column for the own error where there is an anchor", () => {
    const document = plannedDocument(
      [
        { name: "C2", targetHz: 65.40639, offCents: 1 },
        { name: "C3", targetHz: 130.81278, offCents: -5.2 },
      ],
      { anchor: "C2" },
    );
    const rows = measureText(document, { colour: false }).split("\n");
    const cells = (name: string) => rows.find((row) => row.startsWith(`${name}  `))?.split(/\s{2,}/);
    expect(cells("C2")?.slice(3, 6)).toEqual(["+1.0", "+0.8 to +1.2", "anchor"]);
    expect(cells("C3")?.slice(3, 6)).toEqual(["-5.2", "-5.4 to -5.0", "-6.2"]);
  });

  it("says of the pairs of a string that is far off nothing but to tune it first", () => {
    const document = plannedDocument([
      { name: "C2", targetHz: 65.40639, offCents: 0 },
      { name: "G2", targetHz: 98.10959, offCents: 31 },
      { name: "C3", targetHz: 130.81278, offCents: 0 },
    ]);
    const sheet = measureText(document, { colour: false });
    expect(sheet).toContain("First of all G2 down by 31 cents");
    expect(sheet.replace(/\s+/g, " ")).toContain(
      "Tune G2 first; until then these say nothing: C2 - G2 (3:2), G2 - C3 (4:3).",
    );
    const rows = sheet.split("\n").filter((row) => /^\w+ - \w+ /.test(row));
    expect(rows.map((row) => row.split(/\s{2,}/)[0])).toEqual(["C2 - C3"]);
  });

  it("is no longer than 70 lines for six strings that all sound together", () => {
    // All near a tempered alto, none far off: twelve or more pairs, each with its row.
    const notes = { C2: 36, G2: 43, C3: 48, G3: 55, D4: 62, G4: 67 };
    const off = [0, 4, -3, 7, -6, 5];
    const document = plannedDocument(
      Object.entries(notes).map(([name, midi], i) => ({
        name,
        targetHz: 440 * 2 ** ((midi - 69) / 12),
        offCents: off[i]!,
        role: i < 3 ? "drone" : "melody",
      })),
      { tonic: null },
    );
    expect(document.takes[0]!.pairs.length).toBeGreaterThanOrEqual(12);
    const lines = measureText(document, { colour: false }).trimEnd().split("\n");
    expect(lines.length).toBeLessThanOrEqual(71);
  });

  it("says that without an instrument the nearest note is the target", () => {
    expect(text(handMadeDocument(undefined, { instrument: null }))).toContain("nearest note");
  });
});
