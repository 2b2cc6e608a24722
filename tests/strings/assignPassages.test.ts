import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StringTarget } from "../../src/instrument/Instrument.js";
import { type Assignment, assignPassages } from "../../src/strings/assignPassages.js";
import { NOTE_HZ } from "../reading/bowedTake.js";
import { movedHz } from "./handMadePassage.js";

/** Property tests draw the same cases every time. */
const SEED = 20_260_302;

interface Passage {
  readonly id: string;
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly frequencyHz: number;
}

function target(name: string, targetHz: number): StringTarget {
  return { name, role: "melody", note: name, targetHz };
}

/** Passages of 4 s with 1.2 s between what is measured of them, named a, b, c, ... */
function inTurn(...frequenciesHz: number[]): Passage[] {
  return frequenciesHz.map((frequencyHz, i) => ({
    id: String.fromCharCode(97 + i),
    startSeconds: 5.2 * i,
    endSeconds: 5.2 * i + 4,
    frequencyHz,
  }));
}

function ids(assignment: Assignment<Passage>): string[] {
  return assignment.perTarget.map((passages) => passages.map(({ id }) => id).join(""));
}

function unmatchedIds({ unmatched }: Assignment<Passage>): string {
  return unmatched.map(({ id }) => id).join("");
}

const { C2, G2, C3, G3, D4, G4 } = NOTE_HZ;
const drones = [target("C2", C2), target("G2", G2), target("C3", C3)];
const pair = [target("G4", G4), target("G4 2", G4)];

describe("assignPassages", () => {
  it("keeps the parts of one long sound together, however far it drifts", () => {
    // Cut at 60 s without a gap; 8 cents is more than a change of string would need after a pause.
    const parts = [0, 8].map((away, i) => ({
      id: "ab"[i],
      startSeconds: 1.69 + 34.83 * i,
      endSeconds: 1.69 + 34.83 * (i + 1),
      frequencyHz: movedHz(G4, away),
    }));
    const found = assignPassages(parts, pair);
    expect(ids(found)).toEqual(["ab", ""]);
    expect(found.unclearGroups).toEqual([[0, 1]]);
  });

  it("gives each passage to the target within 60 cents of it, in whatever order they were bowed", () => {
    const offset = fc.double({ min: -59.9, max: 59.9, noNaN: true });
    const order = fc.shuffledSubarray([0, 1, 2], { minLength: 3 });
    fc.assert(
      fc.property(order, fc.tuple(offset, offset, offset), (strings, offsets) => {
        const passages = inTurn(...strings.map((t) => movedHz(drones[t].targetHz, offsets[t])));
        const { perTarget, unmatched, unclearGroups } = assignPassages(passages, drones);
        for (const [turn, t] of strings.entries()) expect(perTarget[t]).toEqual([passages[turn]]);
        expect(unmatched).toEqual([]);
        expect(unclearGroups).toEqual([]);
      }),
      { seed: SEED },
    );
  });

  it("keeps every passage of one string, in order of time", () => {
    expect(ids(assignPassages(inTurn(C2, G2, movedHz(C2, 1), movedHz(C2, 7)), drones))).toEqual([
      "acd",
      "b",
      "",
    ]);
  });

  it("loses no passage and gives none away twice", () => {
    const pitch = fc.double({ min: 50, max: 800, noNaN: true });
    fc.assert(
      fc.property(fc.array(pitch, { maxLength: 12 }), (frequencies) => {
        const passages = inTurn(...frequencies);
        const { perTarget, unmatched } = assignPassages(passages, [...drones, ...pair]);
        const all = [...perTarget.flat(), ...unmatched].map(({ startSeconds }) => startSeconds);
        expect(all.sort((a, b) => a - b)).toEqual(passages.map(({ startSeconds }) => startSeconds));
      }),
      { seed: SEED },
    );
  });

  describe("equal strings", () => {
    it("are taken in the order of the targets", () => {
      expect(ids(assignPassages(inTurn(movedHz(G4, 8), movedHz(G4, -8)), pair))).toEqual(["a", "b"]);
      expect(ids(assignPassages(inTurn(movedHz(G4, -8), movedHz(G4, 8)), pair))).toEqual(["a", "b"]);
    });

    it("are taken in the order that was named", () => {
      const passages = inTurn(movedHz(G4, 8), movedHz(G4, -8));
      expect(ids(assignPassages(passages, pair, ["G4 2", "G4"]))).toEqual(["b", "a"]);
      expect(ids(assignPassages(passages, pair, ["G4 2"]))).toEqual(["b", "a"]);
      expect(ids(assignPassages(passages, pair, ["G4"]))).toEqual(["a", "b"]);
    });

    it("count as equal where their targets lie within 30 cents, as a pure and a tempered third do", () => {
      // 5/4 is 386.31 cents, the equal-tempered third 400: 13.7 apart.
      const thirds = [target("pure", C3 * 1.25), target("tempered", movedHz(C3, 400))];
      const passages = inTurn(movedHz(C3, 399), movedHz(C3, 387));
      expect(ids(assignPassages(passages, thirds))).toEqual(["a", "b"]);
    });

    it("are not touched by an order that names unequal ones", () => {
      const passages = inTurn(C2, G2, C3);
      expect(ids(assignPassages(passages, drones, ["C3", "G2", "C2"]))).toEqual(["a", "b", "c"]);
    });

    it("are taken round and round where each was bowed twice, and that is called unclear", () => {
      const found = assignPassages(inTurn(G4, movedHz(G4, 9), G4, movedHz(G4, 9)), pair);
      expect(ids(found)).toEqual(["ac", "bd"]);
      expect(found.unclearGroups).toEqual([[0, 1]]);
    });

    it("are unclear where fewer passages than strings were found, and not where none was", () => {
      expect(assignPassages(inTurn(G4), pair).unclearGroups).toEqual([[0, 1]]);
      expect(assignPassages(inTurn(C2), [...pair, ...drones]).unclearGroups).toEqual([]);
      expect(assignPassages(inTurn(C2, C2, C2), drones).unclearGroups).toEqual([]);
    });

    it("are not changed by a hiccup of the bowing", () => {
      // 0.5 s between measured stretches is a break of 0.15 s: 0.35 s of it are trimmed ends.
      const [first, second, third] = inTurn(G4, movedHz(G4, 1), movedHz(G4, 9));
      const passages = [
        first,
        { ...second, startSeconds: first.endSeconds + 0.5, endSeconds: first.endSeconds + 2 },
        third,
      ];
      const found = assignPassages(passages, pair);
      expect(ids(found)).toEqual(["ab", "c"]);
      expect(found.unclearGroups).toEqual([]);
    });
  });

  describe("strings far off", () => {
    it("are found up to 300 cents away where no other string explains the passage", () => {
      const away = fc.double({ min: 60.1, max: 299.9, noNaN: true });
      fc.assert(
        fc.property(away, fc.boolean(), (cents, flat) => {
          const passages = inTurn(C2, movedHz(G2, flat ? -cents : cents), C3);
          const found = assignPassages(passages, drones);
          expect(ids(found)).toEqual(["a", "b", "c"]);
          expect(found.unmatched).toEqual([]);
        }),
        { seed: SEED },
      );
    });

    it("are not made up beyond 300 cents, nor of a string that was heard in place", () => {
      expect(unmatchedIds(assignPassages(inTurn(C2, movedHz(G2, -301), C3), drones))).toBe("b");
      const found = assignPassages(inTurn(C2, G2, C3, movedHz(C3, 200)), drones);
      expect(ids(found)).toEqual(["a", "b", "c"]);
      expect(unmatchedIds(found)).toBe("d");
    });

    it("begin at 60 cents: up to there a second passage belongs to a string that was heard in place", () => {
      const at = (away: number) => assignPassages(inTurn(C3, movedHz(C3, away)), drones.slice(2));
      expect(ids(at(59))).toEqual(["ab"]);
      expect(ids(at(61))).toEqual(["a"]);
      expect(unmatchedIds(at(61))).toBe("b");
    });

    it("leave a passage within 60 cents of a string to that string", () => {
      // 40 cents above C3, with G3 500 cents further up not heard.
      const found = assignPassages(inTurn(movedHz(C3, 40)), [target("C3", C3), target("G3", G3)]);
      expect(ids(found)).toEqual(["a", ""]);
    });

    it("go to the nearest string first", () => {
      // b lies 150 cents above D4 and 350 below G4; a 80 above D4. D4 goes to a, and b, 350 cents from G4, stays.
      const found = assignPassages(inTurn(movedHz(D4, 80), movedHz(D4, 150)), [
        target("D4", D4),
        target("G4", G4),
      ]);
      expect(ids(found)).toEqual(["a", ""]);
      expect(unmatchedIds(found)).toBe("b");
    });

    it("may have been bowed more than once", () => {
      const found = assignPassages(inTurn(movedHz(G2, -200), C2, movedHz(G2, -195)), drones);
      expect(ids(found)).toEqual(["b", "ac", ""]);
    });
  });

  it("has nothing to give without passages or without targets", () => {
    expect(ids(assignPassages([], drones))).toEqual(["", "", ""]);
    expect(unmatchedIds(assignPassages(inTurn(C2, G2), []))).toBe("ab");
  });
});
