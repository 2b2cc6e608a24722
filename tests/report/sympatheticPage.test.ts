import { describe, expect, it } from "vitest";
import { sympatheticCsv } from "../../src/report/csv/sympatheticCsv.js";
import { sympatheticPage } from "../../src/report/html/sympatheticPage.js";
import { sympatheticText } from "../../src/report/sympatheticText.js";
import { pluckedDocument, pluckedString } from "./handMadePlucks.js";
import { HOSTILE, pageOf } from "./pageOf.js";

const document = pluckedDocument([
  pluckedString(HOSTILE, 12.5),
  pluckedString("=D4", -3.1),
  pluckedString("silent", null),
]);

describe("sympatheticPage", () => {
  it("gives the answer of the text, every string, and how each rings", () => {
    const page = sympatheticPage(document, ["mine.yaml"]);
    const html = pageOf(page);
    const text = sympatheticText(document, { colour: false, width: 1_000_000 });
    expect(page.answer).toEqual(document.inShort);
    for (const sentence of page.answer) expect(text).toContain(sentence);
    expect(html).toContain("+12.5");
    expect(html).toContain("not heard");
    expect(html).toContain("Also read: mine.yaml");
    expect(html.match(/<figure>/g)).toHaveLength(1);
  });

  it("has no drawing where nothing was heard", () => {
    expect(pageOf(sympatheticPage(pluckedDocument([pluckedString("G4", null)])))).not.toContain("<figure>");
  });
});

describe("sympatheticCsv", () => {
  it("has one row for each string, empty cells where it was not heard, and no formula", () => {
    const [head, ...rows] = sympatheticCsv(document).trimEnd().split("\r\n");
    expect(head!.split(",").slice(1, 6)).toEqual([
      "string",
      "status",
      "targetHz",
      "frequencyHz",
      "deviationCents",
    ]);
    expect(rows).toHaveLength(3);
    expect(rows[1]).toMatch(/,'=D4,measured,391\.995,[\d.]+,-3\.1,/);
    expect(rows[2]).toMatch(/,silent,not-heard,391\.995,,,,,0,/);
  });
});
