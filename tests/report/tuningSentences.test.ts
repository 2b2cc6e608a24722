import { describe, expect, it } from "vitest";
import { tuningSentences } from "../../src/report/tuningSentences.js";
import { type PlannedString, plannedDocument } from "./handMadePairs.js";

const C2 = 65.40639;
const drone = (
  name: string,
  targetHz: number,
  offCents: number,
  half: number | null = 0.1,
): PlannedString => ({
  name,
  targetHz,
  offCents,
  half,
});

function sentences(strings: readonly PlannedString[], options: Parameters<typeof plannedDocument>[1] = {}) {
  const document = plannedDocument(strings, options);
  return tuningSentences(document.takes[0]!, document).map((sentence) => sentence.replaceAll("\u00a0", " "));
}

describe("tuningSentences", () => {
  it("says which string to move, which way, how far, by which, and when to stop", () => {
    // 2.1 cents of the common partial, 196.22 Hz, are 0.238 Hz.
    const [move, change] = sentences([
      drone("bass drone", C2, 0),
      drone("fifth drone", 1.5 * C2, 2.1),
      drone("tenor drone", 2 * C2, 0),
    ]);
    expect(move).toBe(
      "fifth drone down by about 2 cents, by bass drone: from 2.1 cents wide (0.24 beats a second) to a standstill (one " +
        "beat in 10 s or slower).",
    );
    expect(change).toContain("fifth drone - tenor drone");
  });

  it("goes up where the pair is narrow, and moves the lower string the other way", () => {
    const three = (root: number, fifth: number) =>
      sentences([drone("C2", C2, root), drone("G2", 1.5 * C2, fifth), drone("C3", 2 * C2, 0)])[0];
    expect(three(0, -5)).toMatch(/^G2 up by about 5 cents, by C2: from 5\.0 cents narrow/);
    expect(three(0, 5)).toMatch(/^G2 down by about 5 cents, by C2: from 5\.0 cents wide/);
    expect(three(5, 0)).toMatch(/^C2 down by about 5 cents, by G2/);
    expect(three(-5, 0)).toMatch(/^C2 up by about 5 cents, by G2/);
  });

  it("leaves what can't be told from pure", () => {
    expect(sentences([drone("C2", C2, 0, 2), drone("G2", 1.5 * C2, 2.1, 2)])).toEqual([
      "Leave: C2 - G2 (pure, as far as can be told or heard).",
    ]);
  });

  it("tunes towards the beat that the tuning wants, not towards pure", () => {
    // Equal temperament: C4-G4 1.955 cents narrow, 0.8858 beats a second; 9 in 10 s (Capleton 2007: .9).
    const fifth = (off: number) => sentences([drone("C4", 261.62557, 0), drone("G4", 391.99544, off)])[0];
    expect(fifth(-5)).toBe(
      "G4 up by about 5 cents, by C4: from 7.0 cents narrow (3.15 beats a second) slowing down to 2.0 cents narrow " +
        "(0.89 a second, 9 in 10 s).",
    );
    expect(fifth(8)).toMatch(
      /^G4 down by about 8 cents, by C4: from 6\.0 cents wide .* past the standstill to 2\.0 cents/,
    );
    // A quarter-comma fifth is 5^(1/4): 5.377 cents narrow. From 2 cents narrow the beat has to get faster.
    const meantone = drone("G4", 261.62557 * 5 ** 0.25, 3.377);
    expect(sentences([drone("C4", 261.62557, 0), meantone])[0]).toMatch(
      /^G4 down by about 3 cents, by C4: .* getting faster to 5\.4 cents narrow \(2\.4\d a second, 24 in 10 s\)\.$/,
    );
  });

  it("says what beat the tuning wants where the pair has it", () => {
    const tempered = [drone("C2", 65.40639, 0), drone("G2", 97.99886, 0)];
    expect(sentences(tempered)).toEqual([
      "Leave: C2 - G2 (0.22 a second) (beating as this tuning wants, as far as can be told).",
    ]);
    expect(sentences(tempered, { instrument: null })[0]).toContain("as equal temperament wants");
  });

  it("tells of --tonic only where drones have no pure target and no tonic is named", () => {
    const tempered = [drone("C2", 65.40639, 0), drone("G2", 97.99886, 0)];
    const hint = (strings: readonly PlannedString[], tonic: string | null) =>
      sentences(strings, { tonic }).some((sentence) => sentence.includes("--tonic"));
    expect(hint(tempered, null)).toBe(true);
    expect(hint(tempered, "C")).toBe(false);
    expect(hint([drone("C2", C2, 0), drone("G2", 1.5 * C2, 0)], null)).toBe(false);
    expect(hint([tempered[0]!, { ...tempered[1]!, role: "melody" }], null)).toBe(false);
  });

  it("numbers several moves, says which pairs change with them, and what pitch they keep", () => {
    const said = sentences([
      drone("C2", C2, 20),
      drone("G2", 1.5 * C2, 28),
      drone("C3", 2 * C2, 20),
      drone("G3", 3 * C2, 8),
      drone("C4", 4 * C2, 20),
    ]);
    // 440 * 2^(20/1200) = 445.11 Hz.
    expect(said[0]).toBe("This keeps the whole at A4 = 445.1 Hz:");
    expect(said[1]).toMatch(/^1\. G2 down by about 8 cents/);
    expect(said[2]).toMatch(/^2\. G3 up by about 12 cents/);
    expect(said[3]).toMatch(/^These change with that, so measure them again: /);
    expect(said[4]).toBe("Leave: C2 - C3, C2 - C4, C3 - C4 (pure, as far as can be told or heard).");
    expect(said).toHaveLength(5);
  });

  it("waits for the string that has to be right first", () => {
    const chain = [drone("low", C2, 0), drone("middle", 1.5 * C2, 5), drone("high", 2.25 * C2, 12)];
    expect(sentences(chain, { anchor: "low" })[1]).toMatch(
      /^2\. high down by about 12 cents, by middle once that is right: /,
    );
    // middle goes down by 5, so the 7 cents between the two are 12 by then: 3 * 1.5 * 65.41 Hz * (2^(12/1200) - 1) = 2.05 Hz.
    expect(sentences(chain, { anchor: "low" })[1]).toMatch(
      /: from 12\.0 cents wide \(2\.0[45] beats a second\) /,
    );
  });

  it("names what is far off first, by its own pitch, and cautions where it goes up far", () => {
    const [first, second] = sentences([
      drone("low", C2, 0),
      drone("fifth", 1.5 * C2, -39),
      drone("octave", 2 * C2, -65),
    ]);
    expect(first).toMatch(
      /^1\. octave up by about 65 cents, by its own pitch\. Make sure first that it is the string/,
    );
    expect(first).toContain("small steps: a string brought up too far snaps. Protect your eyes");
    expect(first).toContain("Then measure again");
    expect(second).toMatch(/^2\. fifth up by about 39 cents, by its own pitch\. Then measure again/);
    expect(second).not.toContain("snaps");
  });

  it("calls two strings of one note apart, neither wide nor narrow, and lets no control character through", () => {
    const [said] = sentences([drone("G4", 392, 0), drone("G4\u001b[2J", 392, 6)]);
    expect(said).toContain("6.0 cents apart");
    expect(said).not.toMatch(/wide|narrow|\u001b/);
  });

  it("says nothing where there is nothing to do and no pair", () => {
    expect(sentences([drone("C2", C2, 0), drone("D3", 146.832, 0)])).toEqual([]);
  });
});
