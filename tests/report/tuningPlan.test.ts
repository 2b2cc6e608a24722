import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pairPlan } from "../../src/report/pairPlan.js";
import { type PlannedString, plannedDocument } from "./handMadePairs.js";

const C2 = 65.40639;
/** A set that is pure throughout: root, fifth, octave, twelfth, double octave. */
const ratios = { root: 1, fifth: 1.5, octave: 2, twelfth: 3, double: 4 } as const;
type Name = keyof typeof ratios;
const names = Object.keys(ratios) as Name[];

function planned(off: Partial<Record<Name, number>>, half = 0.1): PlannedString[] {
  return names
    .filter((name) => off[name] !== undefined)
    .map((name) => ({ name, targetHz: C2 * ratios[name], offCents: off[name]!, half }));
}

function plan(off: Partial<Record<Name, number>>, anchor?: string) {
  return pairPlan(plannedDocument(planned(off), anchor === undefined ? {} : { anchor }).takes[0]!);
}

const steps = (of: ReturnType<typeof plan>) =>
  of.moves.map(({ moved, moveCents, after }) => [moved, Math.round(10 * moveCents) / 10, after]);

describe("pairPlan", () => {
  it("moves the string that is further from the rest, by what is missing", () => {
    // The median of 0, 8, 0.2 is 0.2, so the octave is the string that errs least; of 0, -8, 0.2 it is the root's 0.
    expect(steps(plan({ root: 0, fifth: 8, octave: 0.2 }))).toEqual([["fifth", -7.8, null]]);
    expect(steps(plan({ root: 0, fifth: -8, octave: 0.2 }))).toEqual([["fifth", 8, null]]);
    expect(steps(plan({ root: 6, fifth: 0, octave: 0.2 }))).toEqual([["root", -5.8, null]]);
  });

  it("takes the one further from its target where own errors are alike, as with two strings always", () => {
    expect(steps(plan({ root: 1, fifth: 9 }))).toEqual([["fifth", -8, null]]);
    expect(steps(plan({ root: -9, fifth: 1 }))).toEqual([["root", 10, null]]);
  });

  it("never moves the anchor, and tunes by it where it can", () => {
    const anchored = plan({ root: 0, fifth: 8, octave: 0.2 }, "fifth");
    // Each by its pair with the anchor: the octave is a fourth over the fifth, and pure.
    expect(steps(anchored)).toEqual([
      ["octave", 7.8, null],
      ["root", 8, null],
    ]);
    for (const { pair } of anchored.moves) expect([pair.lower, pair.upper]).toContain("fifth");
  });

  it("tunes by a string that stays, and names each string once", () => {
    const { moves, follow, stay } = plan({ root: 0, fifth: 0, octave: 0, twelfth: 10, double: -20 });
    expect(moves.map(({ moved }) => moved)).toEqual(["twelfth", "double"]);
    expect(moves.every(({ after }) => after === null)).toBe(true);
    // All pairs of 5 strings are near a ratio but 3:4 over two octaves (8:3), and all are in one list.
    expect(follow.length + stay.length + moves.length).toBe(9);
    const moved = ["twelfth", "double"];
    for (const { pair } of stay) expect(moved.includes(pair.lower) || moved.includes(pair.upper)).toBe(false);
  });

  it("reckons with the move before where the only partner moves first", () => {
    // The anchor stays: the twelfth makes a pair only with the root and the fifth that are moved themselves.
    const strings: PlannedString[] = [
      { name: "low", targetHz: C2, offCents: 0, half: 0.1 },
      { name: "middle", targetHz: 1.5 * C2, offCents: 5, half: 0.1 },
      { name: "high", targetHz: 2.25 * C2, offCents: 12, half: 0.1 },
    ];
    const { moves } = pairPlan(plannedDocument(strings, { anchor: "low" }).takes[0]!);
    expect(moves.map(({ moved, moveCents, after }) => [moved, Math.round(moveCents), after])).toEqual([
      ["middle", -5, null],
      ["high", -12, "middle"],
    ]);
  });

  it("lists a pair that was fine with what changes, where one of its strings is moved", () => {
    // An equal-tempered double octave and fifth over a pure drone fifth: to serve the one spoils the other.
    const strings: PlannedString[] = [
      { name: "C2", targetHz: C2, offCents: 0, half: 0.1 },
      { name: "G2", targetHz: 97.99886, offCents: 1.9, half: 0.1 },
      { name: "G4", targetHz: 391.99544, offCents: -0.2, half: 0.1, role: "melody" },
      { name: "C4", targetHz: 261.62557, offCents: 0, half: 0.1, role: "melody" },
    ];
    const { moves, follow } = pairPlan(plannedDocument(strings).takes[0]!);
    expect(moves.map(({ moved }) => moved)).toEqual(["G2"]);
    const drones = follow.find(({ pair }) => pair.lower === "C2" && pair.upper === "G2");
    expect(drones?.state).toBe("pure");
  });

  it("moves neither of two strings alone that are both off: each goes to its own target first", () => {
    // Their mean offset is 1 cent flat, so own errors would be 9 each, and one of them would be moved by 18.
    const { moves, follow } = plan({ root: -10, octave: 8 });
    expect(moves).toEqual([]);
    expect(follow).toHaveLength(1);
  });

  it("says nothing of pairs as right of which a string is moved by another", () => {
    // Fifth and octave are 8 sharp together: pure to each other now, but both go down.
    const { moves, stay } = plan({ root: 0, fifth: 8, octave: 8, twelfth: 0, double: 0 });
    const moved = moves.map((move) => move.moved);
    expect(moved).toHaveLength(2);
    expect(stay.every(({ pair }) => !moved.includes(pair.lower) && !moved.includes(pair.upper))).toBe(true);
    expect(stay.length).toBeGreaterThan(0);
  });

  it("whatever the take: no string twice, never the anchor, and every move betters the string's own error", () => {
    const cents = fc.double({ min: -18, max: 18, noNaN: true });
    const offs = fc.record({ root: cents, fifth: cents, octave: cents, twelfth: cents, double: cents });
    fc.assert(
      fc.property(offs, fc.option(fc.constantFrom(...names), { nil: undefined }), (off, anchor) => {
        const document = plannedDocument(planned(off), anchor === undefined ? {} : { anchor });
        const [take] = document.takes;
        const { moves } = pairPlan(take!);
        const moved = moves.map((move) => move.moved);
        expect(new Set(moved).size).toBe(moved.length);
        expect(moved).not.toContain(anchor);
        for (const move of moves) {
          const own = take!.strings.find(({ name }) => name === move.moved)!.ownErrorCents!;
          // Alike within 0.05 counts as equal; the document rounds to 0.001.
          expect(Math.abs(own + move.moveCents)).toBeLessThan(Math.abs(own) + 0.06);
        }
      }),
    );
  });
});
