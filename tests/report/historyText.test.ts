import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import type { LoggedTake } from "../../src/history/logLineSchema.js";
import { historyText } from "../../src/report/historyText.js";
import { loggedTake, logOf } from "../history/loggedTakes.js";
import { historyOf, inventedHistory, inventedTakes } from "./handMadeHistory.js";

const textOf = (document: Parameters<typeof historyText>[0], width = 80) =>
  historyText(document, { colour: false, width });
const plain = (text: string) => text.replaceAll(/\s+/g, " ");
const schema = new URL("../../src/history/historyDocument.schema.json", import.meta.url);

describe("history as a document", () => {
  it("is what its JSON Schema says", () => {
    const validate = new Ajv2020().compile(JSON.parse(readFileSync(schema, "utf8")));
    for (const document of [
      inventedHistory(),
      historyOf(""),
      historyOf(logOf(inventedTakes().slice(0, 1))),
    ]) {
      expect(validate(JSON.parse(JSON.stringify(document)))).toBe(true);
    }
  });

  it("has only the strings asked for, and goes by all of them", () => {
    const text = logOf(inventedTakes());
    const [one] = historyOf(text, { strings: ["G3"] }).instruments;
    const [all] = historyOf(text).instruments;
    expect(one!.strings).toEqual(all!.strings.filter(({ name }) => name === "G3"));
    expect(one!.common).toEqual(all!.common);
    expect(historyOf(text, { strings: ["nowhere"] }).instruments).toEqual([]);
  });
});

describe("history in words", () => {
  const pair = (after: Record<string, number | null>, more: Partial<LoggedTake> = {}) => {
    const before = loggedTake({
      takenAt: "2026-03-01",
      cents: { C2: 0, G2: 1, C3: -1, G3: 2 },
      halfCents: 0.56,
    });
    return logOf([before, loggedTake({ takenAt: "2026-03-07", cents: after, halfCents: 0.56, more })]);
  };
  const shortOf = (text: string, strings: string[] | null = ["G3"]) =>
    historyOf(text, { strings }).instruments[0]!.inShort.slice(0, -1);

  it("says of one string whether its peg or the weather did it", () => {
    // Half widths of 0.56: sqrt(2) * 0.56 = 0.792, rounded up.
    expect(shortOf(pair({ C2: -3.9, G2: -2.8, C3: -5, G3: -2.2 }))).toEqual([
      "G3 fell 4.2 ± 0.8 cents in 6 days; the other strings fell 3.9 with it, so it is the instrument or the weather, not this peg.",
    ]);
    expect(shortOf(pair({ C2: 0.1, G2: 1.1, C3: -0.9, G3: -2.2 }))).toEqual([
      "G3 fell 4.2 ± 0.8 cents in 6 days while the other strings stood (+0.1): look at this string and its peg.",
    ]);
    expect(shortOf(pair({ C2: -4, G2: -3, C3: -5, G3: -8 }))[0]).toBe(
      "G3 fell 10.0 ± 0.8 cents in 6 days; the other strings fell 4.0, so -6.0 ± 1.0 are its own: look at this string and its peg.",
    );
    expect(shortOf(pair({ C2: -4, G2: -3, C3: -5, G3: 2 }))[0]).toBe(
      "G3 stood (0.0 cents in 6 days) while the other strings fell 4.0.",
    );
    expect(shortOf(pair({ C2: null, G2: null, C3: null, G3: 5 }))[0]).toContain(
      "fewer than two other strings",
    );
  });

  it("takes strings that moved alike together, and names work in between", () => {
    expect(shortOf(pair({ C2: -3.9, G2: -2.8, C3: -5, G3: -2.2 }, { work: "dried out" }), null)[0]).toBe(
      "C2, G2, C3 and G3 fell together, by 3.8 to 4.2 cents in 6 days, so it is the instrument or the weather, not their pegs. " +
        "Work was done in between (dried out), so it may be that as well.",
    );
  });

  it("says what is missing for a drift, and that one take is not enough", () => {
    expect(historyOf(pair({ C2: 0, G2: 1, C3: -1, G3: 2 })).instruments[0]!.inShort.at(-1)).toBe(
      "A drift a day of all strings can't be given: 2 takes are too few.",
    );
    expect(historyOf(logOf(inventedTakes().slice(0, 1))).instruments[0]!.inShort).toEqual([
      "One take only, of 2026-03-01: there is nothing yet to set beside it. Add another of this instrument to the log.",
    ]);
  });

  it("prints the whole sheet: strings, drift, weather, work, lines left out", () => {
    const text = textOf(inventedHistory());
    const said = plain(text);
    expect(said).toMatch(/^bench\.log: 9 takes\. Low Meadow /);
    expect(said).toContain("Beyond that G3 falls 0.2");
    expect(said).toContain('After "new cotton on the melody strings" (2026-03-25), against before:');
    expect(said).toMatch(/G4 of its own \+5\.\d cents/);
    expect(said).toContain("copying a file may change its date");
    expect(text).toMatch(/^ {2}2026-03-13 18:22~ .*19°C 49%$/m);
    expect(text).toMatch(/^ {2}2026-03-25 .*\[1\]$/m);
    expect(said).toContain("Line 10 was left out: it is no reading of a take.");
    expect(said).toContain("Line 11 holds the take of line 1; it counts once.");
    expect(said).toContain("don't show that one makes the other");
    for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("prints the latest twenty takes of a long log and says where the rest is", () => {
    const takes = Array.from({ length: 50 }, (_, i) =>
      loggedTake({
        takenAt: new Date(86_400_000 * (20_000 + i)).toISOString().slice(0, 10),
        cents: { C2: i % 3, G2: i % 2, C3: 0 },
      }),
    );
    const text = textOf(historyOf(logOf(takes)));
    expect(text.match(/^ {2}20\d\d-\d\d-\d\d /gm)).toHaveLength(3 * 20);
    expect(text).toContain("30 older takes are in --csv and --json.");
  });

  it("never lets a name out as it came", () => {
    const evil = "\u001b[2J\u202eG3";
    const take = inventedTakes({ instrument: evil, work: evil })[6]!;
    const document = historyOf(
      logOf([
        inventedTakes({ instrument: evil })[0]!,
        { ...take, strings: take.strings.map((one) => ({ ...one, name: one.name + evil })) },
      ]),
    );
    expect(textOf(document)).not.toMatch(/[\u001b\u202e]/);
  });
});
