import { kernels } from "./kernels.js";

const COMPLEX_BYTES = 2 * Float64Array.BYTES_PER_ELEMENT;

/** Where the tables of a transform lie in the kernels' memory. */
export interface FourierTables {
  /** For a transform of `size` complex values. */
  readonly factors: number;
  /** exp(-2 pi i k / (2 size)) for k from 0 to size / 2: what a transform of twice as many real values asks for too. */
  readonly turns: number;
}

const tables = new Map<number, FourierTables>();

/** The tables of a transform of `size` complex values, a power of two, made once. */
export function fourierTables(size: number): FourierTables {
  const known = tables.get(size);
  if (known !== undefined) return known;
  const { allocate, functions } = kernels();
  // A step of radix 4 has a quarter as many entries as values, three factors each: all of them together as many as there are values.
  const factors = allocate(size * COMPLEX_BYTES);
  const turns = allocate((size / 2 + 1) * COMPLEX_BYTES);
  functions.makeFactors(size, factors, turns);
  const made = { factors, turns };
  tables.set(size, made);
  return made;
}
