import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { assignPlucks } from "../../src/sympathetic/assignPlucks.js";
import { shiftByCents } from "../../src/units/cents.js";

const target = (name: string, targetHz: number) => ({
  name,
  role: "sympathetic" as const,
  note: name,
  targetHz,
});
const pluck = (onsetSeconds: number, frequencyHz: number) => ({
  onsetSeconds,
  frequencyHz,
  deviationCents: 0.05,
});
const G = 391.9954;
const A = 440;

describe("assignPlucks", () => {
  it("gives each pluck to its target whatever the order, several to one string", () => {
    const plucks = [pluck(1, A * 1.01), pluck(2, G * 0.99), pluck(3, A * 1.0102)];
    const { perTarget, unmatched } = assignPlucks(plucks, [target("G", G), target("A", A)]);
    expect(perTarget).toEqual([[plucks[1]], [plucks[0], plucks[2]]]);
    expect(unmatched).toEqual([]);
  });

  it("takes a string far off for the one that is missing, and tells of one that is nothing", () => {
    const plucks = [pluck(1, G), pluck(2, shiftByCents(A, -130)), pluck(3, 700)];
    const { perTarget, unmatched } = assignPlucks(plucks, [target("G", G), target("A", A)]);
    // 130 cents under A is 70 over G, further than a string in use strays: the string that was not heard has it.
    expect(perTarget.map((list) => list.length)).toEqual([1, 1]);
    expect(unmatched).toEqual([plucks[2]]);
  });

  it("takes strings of one note in the order of the file, or in that given", () => {
    const plucks = [pluck(1, G), pluck(2, shiftByCents(G, 4))];
    const targets = [target("first", G), target("second", G)];
    expect(assignPlucks(plucks, targets).perTarget).toEqual([[plucks[0]], [plucks[1]]]);
    const turned = assignPlucks(plucks, targets, ["second", "first"]);
    expect(turned.perTarget).toEqual([[plucks[1]], [plucks[0]]]);
    expect(turned.equal).toEqual([{ members: [1, 0], by: "order" }]);
  });

  it("tells strings of one note apart by pitch where each was plucked several times", () => {
    const low = [pluck(1, G), pluck(3, shiftByCents(G, 0.1)), pluck(4, G)];
    const high = [pluck(2, shiftByCents(G, 5)), pluck(5, shiftByCents(G, 5.1))];
    const inTime = [...low, ...high].sort((a, b) => a.onsetSeconds - b.onsetSeconds);
    const { perTarget, equal } = assignPlucks(inTime, [target("first", G), target("second", G)]);
    expect(perTarget).toEqual([low, high]);
    expect(equal[0]!.by).toBe("pitch");
  });

  it("says that it guesses where neither pitch nor number tells", () => {
    const plucks = [1, 2, 3, 4].map((seconds) => pluck(seconds, G));
    const { perTarget, equal } = assignPlucks(plucks, [target("first", G), target("second", G)]);
    expect(perTarget).toEqual([plucks.slice(0, 2), plucks.slice(2)]);
    expect(equal[0]!.by).toBe("guess");
  });

  it("neither loses a pluck nor gives one twice", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 100, max: 1200, noNaN: true }), { maxLength: 12 }),
        fc.array(fc.constantFrom(196, 220, 293.66, 293.66, G, A), { maxLength: 6 }),
        (frequencies, targetsHz) => {
          const plucks = frequencies.map((hz, i) => pluck(i, hz));
          const targets = targetsHz.map((hz, i) => target(`s${i}`, hz));
          const { perTarget, unmatched } = assignPlucks(plucks, targets);
          const all = [...perTarget.flat(), ...unmatched].sort((a, b) => a.onsetSeconds - b.onsetSeconds);
          expect(all).toEqual(plucks);
        },
      ),
    );
  });
});
