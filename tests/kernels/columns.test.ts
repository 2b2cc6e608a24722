import { describe, it } from "vitest";
import { kernels } from "../../src/kernels/kernels.js";
import { Bench, BYTES, get, near, noise, range } from "./Bench.js";

// Kernels against what they are said to do, written out plainly in 64-bit floats.

describe("columns of a partial", () => {
  const count = 38;
  const [a, b, x, y, w] = range(5).map((seed) => noise(count, seed + 1));

  it("inner product, first conjugated", () => {
    const bench = new Bench();
    const result = bench.room(2);
    const [pa, pb, px, py, pw] = [a, b, x, y, w].map((values) => bench.put(values));
    kernels().functions.innerProduct(pa, pb, px, py, pw, count, result);
    const sum = (of: (m: number) => number) => range(count).reduce((total, m) => total + of(m), 0);
    near(get(result, 2), [
      sum((m) => w[m] * (a[m] * x[m] + b[m] * y[m])),
      sum((m) => w[m] * (a[m] * y[m] - b[m] * x[m])),
    ]);
  });

  it("taking a column out, and the energy of the rest", () => {
    const bench = new Bench();
    const [pa, pb, px, py, pw] = [a, b, x, y, w].map((values) => bench.put(values));
    kernels().functions.takeOut(pa, pb, px, py, 0.7, -0.4, count);
    const real = range(count).map((m) => a[m] - (0.7 * x[m] + 0.4 * y[m]));
    const imaginary = range(count).map((m) => b[m] - (0.7 * y[m] - 0.4 * x[m]));
    near(get(pa, count), real);
    near(get(pb, count), imaginary);
    const energy = kernels().functions.restEnergy(pa, pb, pw, 0.2, 0.3, count);
    const expected = range(count).reduce(
      (sum, m) => sum + (real[m] - 0.2 * w[m]) ** 2 + (imaginary[m] - 0.3 * w[m]) ** 2,
      0,
    );
    near([energy], [expected]);
  });

  it("a neighbour: gain * level * mine * conj(theirs), turning from frame to frame", () => {
    const bench = new Bench();
    const mine = noise(2 * count, 11);
    const theirs = noise(2 * count, 12);
    const [pMine, pTheirs, pGain] = [mine, theirs, w].map((values) => bench.put(values));
    const [real, imaginary] = [bench.room(count), bench.room(count)];
    const angle = 0.37;
    // biome-ignore format: arguments of a kernel
    kernels().functions.neighbourColumn(pMine, pTheirs, pGain, 0.6, Math.cos(angle), Math.sin(angle), count, real, imaginary);
    const column = range(count).map((m) => {
      const p = mine[2 * m] * theirs[2 * m] + mine[2 * m + 1] * theirs[2 * m + 1];
      const q = mine[2 * m + 1] * theirs[2 * m] - mine[2 * m] * theirs[2 * m + 1];
      const [c, s] = [0.6 * w[m] * Math.cos(angle * m), 0.6 * w[m] * Math.sin(angle * m)];
      return [p * c - q * s, p * s + q * c] as const;
    });
    near(
      get(real, count),
      column.map(([value]) => value),
    );
    near(
      get(imaginary, count),
      column.map(([, value]) => value),
    );
  });

  it("equations of two strings at every frame", () => {
    const bench = new Bench();
    const columns = noise(4 * count, 21);
    const amplitudes = Float64Array.of(0.5, -0.2, 0.1, 0.9);
    const [pColumns, pAmplitudes, pa, pb] = [columns, amplitudes, a, b].map((values) => bench.put(values));
    const normal = bench.put(new Float64Array(16 * count));
    const right = bench.put(new Float64Array(4 * count));
    const [turn, weight] = [2 * Math.PI * 3, 1.7];
    // biome-ignore format: as above
    kernels().functions.addEquations(pColumns, pAmplitudes, pa, pb, 2, turn, weight, count, normal, right, bench.room(16));
    const m = 17;
    const rows = range(2).flatMap((k) => {
      const [cx, cy] = [columns[2 * k * count + m], columns[(2 * k + 1) * count + m]];
      const real = amplitudes[2 * k] * cx - amplitudes[2 * k + 1] * cy;
      const imaginary = amplitudes[2 * k] * cy + amplitudes[2 * k + 1] * cx;
      // j * turn * z for the phase, z for the gain.
      return [[-turn * imaginary, turn * real] as const, [real, imaginary] as const];
    });
    const at = (place: number, cell: number) => get(place + (cell * count + m) * BYTES, 1)[0];
    for (const [i, [re, im]] of rows.entries()) {
      near([at(right, i)], [weight * (re * a[m] + im * b[m])]);
      for (const [j, [re2, im2]] of rows.slice(0, i + 1).entries()) {
        near([at(normal, 4 * i + j)], [weight * (re * re2 + im * im2)], 1e-9); // terms of up to some 1,000
      }
    }
  });

  it("turning frames, and powers of phasors", () => {
    const bench = new Bench();
    const phasors = noise(2 * count, 31);
    const [pa, pb, pPhasors, pOther] = [a, b, phasors, noise(2 * count, 32)].map((values) =>
      bench.put(values),
    );
    const other = get(pOther, 2 * count);
    kernels().functions.turnFrames(pa, pb, pPhasors, count);
    near(
      get(pa, count),
      range(count).map((m) => a[m] * phasors[2 * m] - b[m] * phasors[2 * m + 1]),
    );
    near(
      get(pb, count),
      range(count).map((m) => a[m] * phasors[2 * m + 1] + b[m] * phasors[2 * m]),
    );
    const rows = 3;
    const powers = bench.room(2 * count * rows);
    kernels().functions.phasorPowers(pPhasors, pOther, count, rows, powers);
    const times = (values: readonly number[]) =>
      range(count).flatMap((m) => [
        phasors[2 * m] * values[2 * m] - phasors[2 * m + 1] * values[2 * m + 1],
        phasors[2 * m] * values[2 * m + 1] + phasors[2 * m + 1] * values[2 * m],
      ]);
    near(get(powers, 2 * count * rows), [
      ...times(other),
      ...times(times(other)),
      ...times(times(times(other))),
    ]);
  });
});

it("amplitudes of columns: what they leave is orthogonal to all of them under the weights", () => {
  const bench = new Bench();
  const [count, size] = [36, 3];
  const columns = range(2 * size).map((seed) => noise(count, seed + 21));
  const [real, imaginary] = [noise(count, 28), noise(count, 29)];
  const weights = noise(count, 30).map(Math.abs);
  const places = columns.map((values) => bench.put(values));
  const [pReal, pImaginary, pWeights] = [real, imaginary, weights].map((values) => bench.put(values));
  const [rows, amplitudes] = [bench.room(2 * size * (size + 1)), bench.room(2 * size)];
  // biome-ignore format: arguments of a kernel
  const overlap = kernels().functions.solveColumns(places[0], size, pReal, pImaginary, pWeights, count, 0, rows, amplitudes);
  const found = get(amplitudes, 2 * size);
  const product = (a: number, x: (m: number) => number, y: (m: number) => number) => {
    const [c, d] = [columns[2 * a], columns[2 * a + 1]];
    const sum = (of: (m: number) => number) => range(count).reduce((all, m) => all + weights[m] * of(m), 0);
    return [sum((m) => c[m] * x(m) + d[m] * y(m)), sum((m) => c[m] * y(m) - d[m] * x(m))];
  };
  const left = (m: number) =>
    range(size).reduce(
      ([x, y], k) => {
        const [c, d] = [columns[2 * k][m], columns[2 * k + 1][m]];
        const [a, b] = [found[2 * k], found[2 * k + 1]];
        return [x - (a * c - b * d), y - (a * d + b * c)];
      },
      [real[m], imaginary[m]],
    );
  for (const k of range(size)) {
    near(
      product(
        k,
        (m) => left(m)[0],
        (m) => left(m)[1],
      ),
      [0, 0],
    );
  }
  const between = (a: number, b: number) =>
    product(
      a,
      (m) => columns[2 * b][m],
      (m) => columns[2 * b + 1][m],
    );
  const coherence = (k: number) =>
    (between(0, k)[0] ** 2 + between(0, k)[1] ** 2) / between(0, 0)[0] / between(k, k)[0];
  near([overlap], [Math.max(coherence(1), coherence(2))]);
});
