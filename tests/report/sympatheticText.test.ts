import { describe, expect, it } from "vitest";
import { sympatheticText } from "../../src/report/sympatheticText.js";
import { sympatheticWordings } from "../../src/report/sympatheticWordings.js";
import { sympatheticDocumentSchema } from "../../src/sympathetic/sympatheticDocumentSchema.js";
import { pluckedDocument, pluckedString } from "./handMadePlucks.js";

const textOf = (document: ReturnType<typeof pluckedDocument>) =>
  sympatheticText(document, { colour: false, width: 80 });

describe("the sheet of plucked strings", () => {
  it("says first which string to move, which way and how far", () => {
    const document = pluckedDocument([
      pluckedString("a", -12.34),
      pluckedString("b", 7.6),
      pluckedString("c", 0.1),
      pluckedString("d", null),
    ]);
    const text = textOf(document);
    expect(text.indexOf("In short")).toBeLessThan(text.indexOf("Strings"));
    expect(text.replace(/\n */g, " ")).toContain(
      "Tune up: a by 12 cents. Raise in small steps: a string brought up too far snaps.",
    );
    expect(text).toContain("Tune down: b by 8 cents.");
    expect(text).toContain("Leave c.");
    expect(text).toContain("Not heard: d.");
    expect(text).toMatch(/ {2}a +392\.00 +389\.21 +-12\.3 +-12\.6 to -12\.1 +1 {2}tune up/);
    expect(text).toMatch(/ {2}d +392\.00 +- +- +- +not heard/);
    expect(sympatheticDocumentSchema.parse(document)).toEqual(document);
  });

  it("leaves a string that is off by less than it answers over, or not surely off", () => {
    expect(pluckedDocument([pluckedString("a", 3, 4)]).inShort).toEqual(["Leave a."]);
    // Never coarser than 5 cents, however fast it fades.
    expect(pluckedDocument([pluckedString("a", 6, 30)]).inShort[0]).toContain("Tune down: a by 6 cents.");
    const unsure = { ...pluckedString("a", 3), interval95Cents: [-1, 7] as const };
    expect(pluckedDocument([unsure]).inShort).toEqual(["Leave a."]);
  });

  it("is careful with a string far off", () => {
    const [first] = pluckedDocument([pluckedString("a", -140)]).inShort;
    expect(first).toMatch(/^a is far off: up by about 140 cents\..*small steps.*snaps\. Protect your eyes/);
  });

  it("keeps to 80 columns, whatever the names", () => {
    const long = "the string with the longest name that anyone could think of";
    const text = textOf(pluckedDocument([pluckedString(long, -12.3), pluckedString("b", null)]));
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("words every finding, with and without its values", () => {
    for (const [code, wordings] of Object.entries(sympatheticWordings)) {
      const finding = {
        code: code as keyof typeof sympatheticWordings,
        severity: "info" as const,
        values: {},
      };
      const { findings } = pluckedDocument([], { findings: [finding] });
      expect(findings[0]!.message).not.toMatch(/^Found:|[{}]/);
      expect(wordings.at(-1)!.text).not.toContain("{");
    }
    const { findings } = pluckedDocument([], {
      findings: [
        {
          code: "plucks-not-placed",
          severity: "warning",
          values: { startSeconds: 2.04, frequencyHz: 523.2, note: "C5", deviationCents: -0.2 },
        },
      ],
    });
    expect(findings[0]!.message).toContain("The pluck at 2.0 s is none of these strings: 523.20 Hz");
  });
});
