import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { kernels } from "../../src/kernels/kernels.js";
import { Bench, BYTES, get, near, noise, range } from "./Bench.js";

// Each kernel against what it is said to do, written out plainly in 64-bit floats.

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
    kernels().functions.multiplyPhasors(pPhasors, pOther, count);
    near(
      get(pPhasors, 2 * count),
      range(count).flatMap((m) => [
        phasors[2 * m] * other[2 * m] - phasors[2 * m + 1] * other[2 * m + 1],
        phasors[2 * m] * other[2 * m + 1] + phasors[2 * m + 1] * other[2 * m],
      ]),
    );
  });
});

describe("sums over samples", () => {
  it("sum, squares and extremes, the product of two channels, whatever the count", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 70 }), fc.integer(), (count, seed) => {
        const bench = new Bench();
        const left = Float32Array.from(noise(count, seed));
        const right = Float32Array.from(noise(count, seed + 1));
        const result = bench.room(4);
        const [pLeft, pRight] = [bench.put32(left), bench.put32(right)];
        kernels().functions.summarise(pLeft, count, result);
        const values = [...left];
        near(get(result, 4), [
          values.reduce((sum, value) => sum + value, 0),
          values.reduce((sum, value) => sum + value * value, 0),
          Math.max(...values),
          Math.min(...values),
        ]);
        near(
          [kernels().functions.productSum(pLeft, pRight, count)],
          [values.reduce((sum, value, i) => sum + value * right[i], 0)],
        );
      }),
      { numRuns: 100 },
    );
  });

  it("the first sample outside of two edges, NaN too", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 90 }),
        fc.integer({ min: 0, max: 120 }),
        fc.boolean(),
        (count, at, isNotNumber) => {
          const samples = new Float32Array(count).map((_, i) => ((i % 7) - 3) / 10);
          if (at < count) samples[at] = isNotNumber ? Number.NaN : 0.5;
          const place = new Bench().put32(samples);
          expect(kernels().functions.firstOutside(place, 0, count, -0.4, 0.5)).toBe(Math.min(at, count));
        },
      ),
    );
  });
});

it("whole numbers of 16 and 24 bits, exactly", () => {
  const bench = new Bench();
  const values = [-8_388_608, -1, 0, 1, 8_388_607, -4_660, 1_193_046];
  const bytes = Uint8Array.from(
    values.flatMap((value) => [value & 255, (value >> 8) & 255, (value >> 16) & 255]),
  );
  const [from, to] = [bench.room(16), bench.room(16)];
  kernels().u8.set(bytes, from);
  kernels().functions.decode24(from, 3, to, values.length);
  expect([...kernels().f32.slice(to / 4, to / 4 + values.length)]).toEqual(
    values.map((value) => value / 2 ** 23),
  );
  kernels().functions.decode16(from + 1, 3, to, values.length);
  expect([...kernels().f32.slice(to / 4, to / 4 + values.length)]).toEqual(
    values.map((value) => (value >> 8) / 2 ** 15),
  );
});

it("smoothing by symmetric weights", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 8 }),
      fc.integer({ min: 0, max: 30 }),
      fc.integer(),
      (half, more, seed) => {
        const bench = new Bench();
        const count = 2 * half + 1 + more;
        const values = noise(count, seed);
        const weights = noise(half + 1, seed + 1);
        const [pValues, pWeights, smoothed] = [bench.put(values), bench.put(weights), bench.room(count)];
        kernels().functions.smooth(pValues, pWeights, half, count, smoothed);
        near(
          get(smoothed + half * BYTES, count - 2 * half),
          range(count - 2 * half).map((i) =>
            range(2 * half + 1).reduce((sum, j) => sum + weights[Math.abs(j - half)] * values[i + j], 0),
          ),
        );
      },
    ),
  );
});

it.each([1, 4])("products of series through a filter of order %i", (order) => {
  const bench = new Bench();
  const [rows, count, stride] = [3, 45, 46];
  const series = noise(rows * stride, 41);
  const filter = Float64Array.from([1, ...noise(order, 42)]);
  const [pSeries, pFilter] = [bench.put(series), bench.put(filter)];
  const [white, products] = [bench.room(rows * stride), bench.room(rows * rows)];
  kernels().functions.whitenedProducts(pSeries, rows, count, stride, pFilter, order, white, products);
  const filtered = range(rows).map((r) =>
    range(count - order).map((m) =>
      filter.reduce((sum, tap, k) => sum + tap * series[r * stride + m + order - k], 0),
    ),
  );
  for (let r = 0; r < rows; r++) {
    near(get(white + r * stride * BYTES, count - order), filtered[r]);
    for (let c = 0; c <= r; c++) {
      near(get(products + (r * rows + c) * BYTES, 1), [
        filtered[r].reduce((sum, value, m) => sum + value * filtered[c][m], 0),
      ]);
    }
  }
});

it("demodulation along a course: every sample weighted and turned back by the phase of each partial", () => {
  const bench = new Bench();
  const [rate, hop, frames, partials, frequencyHz] = [1000, 0.05, 5, 4, 37];
  const [first, grid, from] = [2, 2.11, 40];
  const samples = Float32Array.from(noise(420, 51));
  const course = Float64Array.from([0, 0.02, 0.05, 0.03, -0.01]);
  const places = [
    bench.put32(samples.subarray(from)),
    bench.put(course),
    bench.room(102),
    bench.room(4 * partials),
    bench.room(frames),
    bench.room(partials * frames),
    bench.room(partials * frames),
  ];
  const [pSamples, pCourse, pairs, sums, weights, real, imaginary] = places;
  // biome-ignore format: arguments of a kernel
  kernels().functions.demodulate(pSamples, from, samples.length, rate, first, grid, hop, frames, frequencyHz, pCourse, partials, pairs, sums, weights, real, imaginary, frames);
  const since = (i: number) => first + i / rate - grid;
  // Straight between the frames; before the first and after the last it stays.
  const ahead = (seconds: number) => {
    const place = Math.min(frames - 1, Math.max(0, seconds / hop));
    const m = Math.min(frames - 2, Math.floor(place));
    return course[m] + (place - m) * (course[m + 1] - course[m]);
  };
  for (const m of range(frames)) {
    const inFrame = range(samples.length).filter((i) => Math.abs(since(i) / hop - m) < 1 - 1e-9);
    const weight = (i: number) => 0.5 + 0.5 * Math.cos(Math.PI * (since(i) / hop - m));
    const total = inFrame.reduce((sum, i) => sum + weight(i), 0);
    for (const n of range(partials)) {
      const angle = (i: number) => 2 * Math.PI * (n + 1) * (frequencyHz * since(i) + ahead(since(i)));
      const sum = (of: (angle: number) => number) =>
        (2 / total) * inFrame.reduce((all, i) => all + weight(i) * samples[i] * of(angle(i)), 0);
      // Goertzel's recursion loses digits where a step turns little.
      near(get(real + (n * frames + m) * BYTES, 1), [sum(Math.cos)], 1e-9);
      near(get(imaginary + (n * frames + m) * BYTES, 1), [-sum(Math.sin)], 1e-9);
    }
  }
});
