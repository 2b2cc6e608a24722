import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { displayWidth } from "../../src/report/displayWidth.js";
import { printable } from "../../src/report/printable.js";
import { shorten } from "../../src/report/shorten.js";

// Written as numbers so that the check does not share its character classes with the code under test.
function isDangerous(codePoint: number): boolean {
  return (
    codePoint < 0x20 ||
    (codePoint >= 0x7f && codePoint <= 0x9f) ||
    (codePoint >= 0x200e && codePoint <= 0x200f) ||
    (codePoint >= 0x2028 && codePoint <= 0x202e) ||
    (codePoint >= 0x2066 && codePoint <= 0x2069) ||
    (codePoint >= 0xd800 && codePoint <= 0xdfff) ||
    codePoint === 0x61c ||
    codePoint === 0xfeff
  );
}

describe("printable", () => {
  it("writes control, direction and separator characters out", () => {
    expect(printable("a\u001b[2Jb")).toBe("a\\u{1b}[2Jb");
    expect(printable("a\u009b2J\u202egpj\u2066\u2028")).toBe("a\\u{9b}2J\\u{202e}gpj\\u{2066}\\u{2028}");
    expect(printable("two\nlines\r\t")).toBe("two\\u{a}lines\\u{d}\\u{9}");
  });

  it("leaves names of people and things alone", () => {
    for (const name of ["Größe.wav", "Ω low", "低音 1", "e\u0301", "chanterelle n° 2"]) {
      expect(printable(name)).toBe(name);
    }
  });

  it("never lets a dangerous character through, whatever the text", () => {
    const anyCodeUnits = fc
      .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 40 })
      .map((units) => String.fromCharCode(...units));
    fc.assert(
      fc.property(anyCodeUnits, (text) => {
        const left = [...printable(text)].filter((character) => isDangerous(character.codePointAt(0)!));
        expect(left).toEqual([]);
      }),
    );
  });
});

describe("displayWidth and shorten", () => {
  it("counts columns, not code units", () => {
    expect(displayWidth("C2")).toBe(2);
    expect(displayWidth("e\u0301")).toBe(1);
    expect(displayWidth("低音")).toBe(4);
    expect(displayWidth("\u{1F3BB}")).toBe(2);
  });

  it("cuts to the width and says so", () => {
    expect(shorten("chanterelle", 8)).toBe("chanter…");
    expect(shorten("低音低音低音", 8)).toBe("低音低…");
    expect(shorten("C2", 8)).toBe("C2");
  });
});
