import { describe, expect, it } from "vitest";
import { instrumentProblems } from "../../src/instrument/instrumentProblems.js";

const places = (text: string) => instrumentProblems(text).map(({ details }) => details.path);

describe("instrumentProblems", () => {
  it("tells all that is wrong, in the order of the file, however it was found", () => {
    const file = `a4Hz: 44
strings:
  - {nots: C2, role: bass}
  - {role: drone, note: H2, lengthMm: 5}
name: 12
`;
    expect(places(file)).toEqual([
      "a4Hz",
      "strings[0].nots",
      "strings[0].role",
      "strings[1].note",
      "strings[1].lengthMm",
      "name",
    ]);
  });

  it("looks at what needs more than one entry once each by itself is right", () => {
    const file = `temperament: just
strings:
  - {role: drone, note: C2, keys: 3, name: low}
  - {role: melody, name: low}
`;
    expect(places(file)).toEqual(["temperament", "strings[0].keys", "strings[1]", "strings[1].name"]);
    expect(places(file.replace("just", "pure"))).toEqual(["temperament"]);
  });

  it("has one problem where the text is no YAML, and none for a good file", () => {
    expect(places("name: 'x\nstrings: [\n")).toEqual([""]);
    expect(places("strings:\n  - {role: drone, note: C2}\n")).toEqual([]);
  });
});
