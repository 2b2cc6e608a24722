import { expect, it } from "vitest";
import { FrameMemory } from "../../src/partials/joint/FrameMemory.js";

const ramp = (length: number, from: number) => Float64Array.from({ length }, (_, i) => from + i);

it("keeps copies apart, also those larger than a piece, whatever comes after", () => {
  const memory = new FrameMemory();
  const lengths = [3, 5000, 4000, 9000, 1, 8192];
  const given = lengths.map((length, i) => ramp(length, 1e5 * i));
  const kept = given.map((values) => memory.keep(values));
  for (const values of given) values.fill(-1);
  for (const [i, values] of kept.entries()) expect(values).toEqual(ramp(lengths[i], 1e5 * i));
});

it("hands out what was given back, to one at a time", () => {
  const first = new FrameMemory();
  const [small, large] = [first.keep(ramp(10, 0)), first.take(777)];
  first.release();
  const second = new FrameMemory();
  const third = new FrameMemory();
  const again = [second.keep(ramp(10, 5)), third.keep(ramp(10, 9))];
  expect(again[0].buffer).toBe(small.buffer);
  expect(again[1].buffer).not.toBe(small.buffer);
  expect([...again[0]]).toEqual([...ramp(10, 5)]);
  expect(second.take(777)).toBe(large);
  expect(third.take(777)).not.toBe(large);
  expect(third.take(776).length).toBe(776);
  // What was released may be used on: it begins a piece of its own.
  expect([...first.keep(ramp(3, 1))]).toEqual([1, 2, 3]);
  expect([...again[0]]).toEqual([...ramp(10, 5)]);
});
