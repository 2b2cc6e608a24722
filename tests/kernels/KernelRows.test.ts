import { expect, it } from "vitest";
import { KernelRows } from "../../src/kernels/KernelRows.js";
import { kernels } from "../../src/kernels/kernels.js";
import { ScratchUser } from "../../src/kernels/ScratchUser.js";

it.each([4, 5])("keeps rows of %i values apart, the last place of an odd row 0", (length) => {
  const rows = new KernelRows(ScratchUser.series, 3, length);
  const values = (row: number) => Float64Array.from({ length }, (_, i) => 10 * row + i);
  rows.fill(2, Number.NaN);
  for (const row of [0, 1]) rows.put(row, values(row));
  rows.fill(2, 7);
  expect([...rows.copy(0)]).toEqual([...values(0)]);
  expect([...rows.copy(1, 2)]).toEqual([10, 11]);
  expect([...rows.copy(2)]).toEqual(new Array(length).fill(7));
  expect(rows.value(1, 3)).toBe(13);
  expect(rows.stride).toBe(length + (length % 2));
  expect(rows.place(1) - rows.place(0)).toBe(8 * rows.stride);
  // Kernels that take two values at a time read it.
  if (length % 2 === 1) expect(kernels().f64[rows.place(1) / 8 + length]).toBe(0);
  const into = new Float64Array(3);
  rows.read(1, into);
  expect([...into]).toEqual([10, 11, 12]);
});

it("a shorter series than the row has a 0 after it", () => {
  const rows = new KernelRows(ScratchUser.series, 1, 6);
  rows.fill(0, 9);
  rows.put(0, Float64Array.of(1, 2, 3));
  expect([...rows.copy(0, 4)]).toEqual([1, 2, 3, 0]);
});
