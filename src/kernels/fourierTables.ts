import { keepValues } from "./keepValues.js";

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
  const made = { factors: keepValues(factorsOf(size)), turns: keepValues(turnsOf(size)) };
  tables.set(size, made);
  return made;
}

function factorsOf(size: number): Float64Array {
  // A step of radix 4 has a quarter as many entries as values: a third of the size in all.
  const values = new Float64Array(2 * size);
  let next = 0;
  for (let left = size; left >= 4; left /= 4) {
    for (let p = 0; p < left / 4; p++) {
      for (let j = 1; j <= 3; j++) {
        const angle = (-2 * Math.PI * p * j) / left;
        values[next++] = Math.cos(angle);
        values[next++] = Math.sin(angle);
      }
    }
  }
  return values;
}

function turnsOf(size: number): Float64Array {
  const values = new Float64Array(size + 2);
  for (let k = 0; k <= size / 2; k++) {
    values[2 * k] = Math.cos((Math.PI * k) / size);
    values[2 * k + 1] = -Math.sin((Math.PI * k) / size);
  }
  return values;
}
