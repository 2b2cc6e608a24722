import { describe, expect, it } from "vitest";
import { pairSentences } from "../../src/report/pairSentences.js";
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
  return pairSentences(document.takes[0]!, document).map((sentence) => sentence.replaceAll("\u00a0", " "));
}

describe("pairSentences", () => {
  it("says which string to move, which way, how far, and when to stop", () => {
    // 2.1 cents of the common partial, 196.22 Hz, are 0.238 Hz: one beat in 4 s.
    const [move, leave] = sentences([
      drone("bass drone", C2, 0),
      drone("fifth drone", 1.5 * C2, 2.1),
      drone("tenor drone", 2 * C2, 0),
    ]);
    expect(move).toBe(
      "bass drone - fifth drone (3:2): 2.1 cents wide, 0.24 beats a second (one in 4 s). Lower fifth drone by about " +
        "2 cents: the beat slows down; stop when it comes and goes no faster than once in 10 s.",
    );
    expect(leave).toContain("fifth drone - tenor drone");
  });

  it("raises where the pair is narrow, and moves the lower string the other way", () => {
    const three = (root: number, fifth: number) =>
      sentences([drone("C2", C2, root), drone("G2", 1.5 * C2, fifth), drone("C3", 2 * C2, 0)])[0];
    expect(three(0, -5)).toContain("5.0 cents narrow");
    expect(three(0, -5)).toContain("Raise G2 by about 5 cents");
    expect(three(5, 0)).toContain("Lower C2 by about 5 cents");
    expect(three(-5, 0)).toContain("Raise C2 by about 5 cents");
  });

  it("leaves what can't be told from pure", () => {
    expect(sentences([drone("C2", C2, 0, 2), drone("G2", 1.5 * C2, 2.1, 2)])).toEqual([
      "Leave as they are. Pure, as far as can be told or heard: C2 - G2.",
    ]);
  });

  it("tunes towards the beat that the tuning wants, not towards pure", () => {
    // Equal temperament: C4-G4 1.955 cents narrow, 0.8858 beats a second; 9 in 10 s (Capleton 2007: .9).
    const fifth = (off: number, options = {}) =>
      sentences([drone("C4", 261.62557, 0), drone("G4", 391.99544, off)], options)[0];
    expect(fifth(-5)).toContain("7.0 cents narrow");
    expect(fifth(-5)).toContain("This tuning wants 2.0 cents narrow: 0.89 beats a second here.");
    expect(fifth(-5)).toContain(
      "Raise G4 by about 5 cents: the beat slows down; stop at about 9 beats in 10 s.",
    );
    expect(fifth(8)).toContain(
      "Lower G4 by about 8 cents: the beat slows down, stands still and comes again; stop",
    );
    expect(fifth(-5, { instrument: null })).toContain("Equal temperament wants");
    // A quarter-comma fifth is 5^(1/4): 5.377 cents narrow. From 2 cents narrow the beat has to get faster.
    const meantone = drone("G4", 261.62557 * 5 ** 0.25, 3.377);
    expect(sentences([drone("C4", 261.62557, 0), meantone])[0]).toMatch(
      /Lower G4 by about 3 cents: the beat gets faster; stop at about 24 beats in 10 s\.$/,
    );
  });

  it("says what beat the tuning wants where the pair has it", () => {
    const [leave] = sentences([drone("C2", 65.40639, 0), drone("G2", 97.99886, 0)]);
    expect(leave).toBe(
      "Leave as they are. Beat as fast as this tuning wants, as far as can be told: C2 - G2 (0.22 a second).",
    );
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
    expect(said[0]).toBe("These moves keep the whole at A4 = 445.1 Hz:");
    expect(said[1]).toMatch(/^1\. .*Lower G2 by about 8 cents/);
    expect(said[2]).toMatch(/^2\. .*Raise G3 by about 12 cents/);
    expect(said[3]).toMatch(/^These change with that, so measure them again: /);
    expect(said[4]).toMatch(/^Leave as they are\. .*C2 - C3, C2 - C4, C3 - C4\.$/);
    expect(said).toHaveLength(5);
  });

  it("waits for the string that has to be right first", () => {
    const chain = [drone("low", C2, 0), drone("middle", 1.5 * C2, 5), drone("high", 2.25 * C2, 12)];
    expect(sentences(chain, { anchor: "low" })[1]).toContain(
      "Once middle is right, lower high by about 12 cents",
    );
  });

  it("cautions where a string goes up far, and not before", () => {
    // A string 25 cents flat of another that is itself 40 flat of the anchor goes up by 65 in all.
    const chain = [drone("low", C2, 0), drone("middle", 1.5 * C2, -39), drone("high", 2.25 * C2, -65)];
    const [first, second] = sentences(chain, { anchor: "low" });
    expect(first).toContain("Raise middle by about 39 cents");
    expect(first).not.toContain("snaps");
    expect(second).toContain("raise high by about 65 cents");
    expect(second).toContain("small steps: a string brought up too far snaps. Protect your eyes");
  });

  it("calls two strings of one note apart, neither wide nor narrow, and lets no control character through", () => {
    const [said] = sentences([drone("G4", 392, 0), drone("G4\u001b[2J", 392, 6)]);
    expect(said).toContain("6.0 cents apart");
    expect(said).not.toMatch(/wide|narrow|\u001b/);
  });

  it("says nothing where there is no pair", () => {
    expect(sentences([drone("C2", C2, 0), drone("D3", 146.832, 0)])).toEqual([]);
  });
});
