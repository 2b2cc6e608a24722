import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editInstrument, type InstrumentEdit } from "../../src/instrument/editInstrument.js";
import type { InstrumentFields, InstrumentKey, StringKey } from "../../src/instrument/InstrumentFields.js";
import { knownKeysAt } from "../../src/instrument/instrumentSchema.js";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { readInstrumentFields } from "../../src/instrument/readInstrumentFields.js";
import { writeInstrument } from "../../src/instrument/writeInstrument.js";
import { anyInstrument } from "./anyInstrument.js";

const instrumentKeys = knownKeysAt([]).filter((key): key is InstrumentKey => key !== "strings");
const stringKeys = knownKeysAt(["strings", 0]) as readonly StringKey[];

const commented = `# My gurdy.

# Strung in spring.
name: "Low one"   # working name
a4Hz: 440.0   # as the organ
colour: red   # not known to us
strings:
  # low ones
  - role: drone     # gut
    note: C2        # low
    name: bass
  # high ones
  - {lengthMm: 345, role: melody, note: 'G4'}   # new
  # the last
  - # buzzes
    role: trompette
    note: C3
# the rest
tonic: G
# end
`;

const edited = (text: string, ...edits: readonly InstrumentEdit[]) => edits.reduce(editInstrument, text);

/** A text written from nothing, entry by entry, as a person fills in a form. */
function typed({ strings, ...own }: InstrumentFields, start = ""): string {
  let text = start;
  for (const key of instrumentKeys) text = editInstrument(text, { kind: "set", key, text: own[key] });
  for (const [string, fields] of strings.entries()) {
    text = editInstrument(text, { kind: "add-string" });
    for (const key of stringKeys)
      text = editInstrument(text, { kind: "set-of-string", string, key, text: fields[key] });
  }
  return text;
}

/** All comments of a text whose values hold no number sign. */
const comments = (text: string) => [...text.matchAll(/#\s*(.*)/g)].map(([, comment]) => comment).sort();

describe("an instrument file and a form", () => {
  it("say the same instrument, whichever way it goes", () => {
    fc.assert(
      fc.property(anyInstrument, (instrument) => {
        const text = writeInstrument(instrument);
        expect(readInstrument(text)).toEqual(instrument);
        expect(readInstrument(typed(readInstrumentFields(text)))).toEqual(instrument);
      }),
      { seed: 31_904_271, numRuns: 150 },
    );
  });

  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  const examples = [...readme.matchAll(/```yaml\n([\s\S]*?)```/g)].map(([, text]) => text!);
  const demo = readFileSync(new URL("../../fixtures/demo-instrument.yaml", import.meta.url), "utf8");

  it.each([
    ["the demo's file", demo] as const,
    ...examples.map((text, i) => [`example ${i + 1} of the README`, text] as const),
  ])("say the same of %s", (_, text) => {
    const fields = readInstrumentFields(text);
    expect(readInstrument(typed(fields))).toEqual(readInstrument(text));
    // Whatever has to be laid out anew for it, nothing is lost.
    const there = { kind: "move-string", string: 0, to: fields.strings.length - 1 } as const;
    const moved = editInstrument(editInstrument(text, there), { ...there, string: there.to, to: 0 });
    expect(readInstrument(moved)).toEqual(readInstrument(text));
    expect(comments(moved)).toEqual(comments(text));
  });
  it("has an example in the README", () => expect(examples.length).toBeGreaterThan(0));

  it("give back any text that was typed into a field, trimmed", () => {
    const start = "name: x # one\nstrings:\n  - {role: drone, note: C2, material: gut} # two\n";
    fc.assert(
      fc.property(fc.string({ unit: "binary", minLength: 1 }), fc.constantFrom("", start), (text, from) => {
        fc.pre(text.trim() !== "");
        const after = edited(
          from === "" ? "strings:\n  - role: drone\n" : from,
          { kind: "set", key: "name", text },
          { kind: "set-of-string", string: 0, key: "material", text },
        );
        const fields = readInstrumentFields(after);
        expect(fields.name).toBe(text.trim());
        expect(fields.strings[0]?.material).toBe(text.trim());
        if (from !== "") expect(after).toMatch(/ # one\n[\s\S]* # two\n$/);
      }),
      { seed: 8_410_077, numRuns: 400 },
    );
  });
});

describe("editInstrument", () => {
  it("writes a value over in its place and leaves all else to the letter", () => {
    expect(
      edited(
        commented,
        { kind: "set", key: "a4Hz", text: "415" },
        { kind: "set", key: "name", text: "Now: low" },
        { kind: "set-of-string", string: 0, key: "note", text: "D2" },
        { kind: "set-of-string", string: 1, key: "note", text: "A4" },
        { kind: "set-of-string", string: 1, key: "lengthMm", text: "345,5" },
      ),
    ).toBe(
      commented
        .replace("440.0", "415")
        .replace('"Low one"', '"Now: low"')
        .replace("C2  ", "D2  ")
        .replace("'G4'", "'A4'")
        .replace("345,", "345.5,"),
    );
  });

  it("leaves the text as it is where nothing changes", () => {
    for (const edit of [
      { kind: "set", key: "a4Hz", text: " 440.0 " },
      { kind: "set", key: "drones", text: "" },
      { kind: "set-of-string", string: 9, key: "note", text: "C2" },
      { kind: "remove-string", string: 3 },
      { kind: "move-string", string: 0, to: 3 },
      { kind: "move-string", string: -1, to: 0 },
      { kind: "move-string", string: 1, to: 1 },
    ] as const) {
      expect(editInstrument(commented, edit)).toBe(commented);
    }
  });

  it("puts a new entry where the schema has it, and keeps order, quotes and unknown entries", () => {
    const after = edited(
      commented,
      { kind: "set", key: "temperament", text: "just" },
      { kind: "set-of-string", string: 0, key: "lengthMm", text: "610" },
      { kind: "set-of-string", string: 1, key: "keys", text: "23" },
      { kind: "set-of-string", string: 2, key: "capo", text: "2, 4" },
    );
    expect(after).toContain("a4Hz: 440.0 # as the organ\ntemperament: just\ncolour: red # not known to us\n");
    expect(after).toContain('name: "Low one" # working name\n');
    expect(after).toContain("    note: C2 # low\n    lengthMm: 610\n    name: bass\n");
    expect(after).toContain("  - {lengthMm: 345, keys: 23, role: melody, note: 'G4'} # new\n");
    expect(after).toContain("    note: C3\n    capo: [2, 4]\n");
    expect(comments(after)).toEqual(comments(commented));
  });

  it("keeps the comments of what is taken out", () => {
    const after = edited(
      commented,
      { kind: "set", key: "name", text: "" },
      { kind: "set", key: "a4Hz", text: "  " },
      { kind: "set", key: "tonic", text: "" },
      { kind: "set-of-string", string: 0, key: "note", text: "" },
    );
    expect(readInstrumentFields(after)).toMatchObject({ name: "", a4Hz: "", tonic: "" });
    expect(comments(after)).toEqual(comments(commented));
  });

  it("keeps comments before and after a string that is taken out", () => {
    for (const [string, gone] of [
      [0, ["gut", "low"]],
      [1, []],
      [2, []],
    ] as const) {
      const after = editInstrument(commented, { kind: "remove-string", string });
      expect(readInstrumentFields(after).strings).toHaveLength(2);
      expect([...comments(after), ...gone].sort()).toEqual(comments(commented));
    }
  });

  it("moves a string with its comments", () => {
    const after = editInstrument(commented, { kind: "move-string", string: 0, to: 2 });
    expect(readInstrumentFields(after).strings.map(({ note }) => note)).toEqual(["G4", "C3", "C2"]);
    expect(after).toMatch(/- role: drone # gut\n {4}note: C2 # low\n {4}name: bass\n/);
    expect(comments(after)).toEqual(comments(commented));
  });

  it("adds a string like the one before, in its style", () => {
    const add = { kind: "add-string" } as const;
    expect(editInstrument("", add)).toBe("strings:\n  - role: drone\n");
    expect(editInstrument("strings: []\n", add)).toBe("strings:\n  - role: drone\n");
    expect(editInstrument("# mine\n", add)).toBe("# mine\n\nstrings:\n  - role: drone\n");
    expect(editInstrument("strings:\n- {role: melody, note: G4}\n", add)).toBe(
      "strings:\n- {role: melody, note: G4}\n- {role: melody}\n",
    );
  });

  it("changes one string alone where several stand for one", () => {
    const text = "strings:\n  - &low { role: drone, note: &n C2 }\n  - *low\n  - { role: drone, note: *n }\n";
    const after = editInstrument(text, { kind: "set-of-string", string: 0, key: "note", text: "D2" });
    expect(readInstrument(after).strings.map(({ note }) => note)).toEqual(["D2", "C2", "C2"]);
    const moved = editInstrument(text, { kind: "move-string", string: 0, to: 2 });
    expect(readInstrument(moved).strings.map(({ note }) => note)).toEqual(["C2", "C2", "C2"]);
  });

  it("keeps Windows line ends, a byte order mark and how far lists are moved in", () => {
    const text = "\uFEFFname: x\r\nstrings:\r\n    - role: drone\r\n      note: C2\r\n";
    const edits = [
      { kind: "set", key: "name", text: "yy" },
      { kind: "set-of-string", string: 0, key: "capo", text: "[2]" },
    ] as const;
    expect(edited(text, ...edits)).toBe(
      "\uFEFFname: yy\r\nstrings:\r\n    - role: drone\r\n      note: C2\r\n      capo: [ 2 ]\r\n",
    );
  });

  it("loses no comment and no value, whatever is set, added or moved", () => {
    const text = fc.constantFrom("", "415", "345.5", "G4", "2 4", "just", "a: b", "x");
    const edit: fc.Arbitrary<InstrumentEdit> = fc.oneof(
      fc.record({ kind: fc.constant("set" as const), key: fc.constantFrom(...instrumentKeys), text }),
      fc.record({
        kind: fc.constant("set-of-string" as const),
        string: fc.nat(3),
        key: fc.constantFrom(...stringKeys),
        text,
      }),
      fc.record({ kind: fc.constant("add-string" as const) }),
      fc.record({ kind: fc.constant("move-string" as const), string: fc.nat(3), to: fc.nat(3) }),
    );
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 12 }), (edits) => {
        const after = edited(commented, ...edits);
        expect(comments(after)).toEqual(comments(commented));
        expect(after).toContain("colour: red");
        // What was set last is what the form shows.
        for (const one of edits.slice(-1)) {
          if (one.kind !== "set") continue;
          const shown = readInstrumentFields(after)[one.key];
          expect(shown).toBe(one.text);
        }
      }),
      { seed: 70_266_913, numRuns: 300 },
    );
  });
});
