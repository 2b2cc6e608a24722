import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { RollingValues } from "../../src/live/RollingValues.js";

describe("RollingValues", () => {
  it("holds the last values of what was pushed, by their numbers, and 0 before the first", () => {
    const capacity = 7;
    const pieces = fc.array(fc.array(fc.integer({ min: 1, max: 99 }), { maxLength: capacity }), {
      maxLength: 20,
    });
    fc.assert(
      fc.property(pieces, fc.integer({ min: -5, max: 5 }), (given, before) => {
        const rolling = new RollingValues(capacity);
        const all: number[] = [];
        for (const piece of given) {
          rolling.push(Float32Array.from(piece));
          all.push(...piece);
          expect(rolling.end).toBe(all.length);
          const from = Math.max(0, all.length - capacity);
          expect([...rolling.slice(from, all.length)]).toEqual(all.slice(from));
        }
        const early = new RollingValues(capacity);
        early.push(Float32Array.of(5, 6));
        const wanted = Array.from({ length: 2 - before }, (_, i) => [5, 6][before + i] ?? 0);
        expect([...early.slice(before, 2)]).toEqual(wanted.slice(0, Math.max(0, 2 - before)));
      }),
      { seed: 9701 },
    );
  });
});
