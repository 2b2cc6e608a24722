import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { kernels } from "../../src/kernels/kernels.js";
import { Bench, BYTES, get, near, noise, range } from "./Bench.js";

// Each kernel against what it is said to do, written out plainly in 64-bit floats.

describe("series", () => {
  it("energies of blocks, and of the steps within them", () => {
    const bench = new Bench();
    const [length, count] = [7, 3];
    const samples = Float32Array.from(noise(length * count + 1, 93));
    const [at, energies] = [bench.put32(samples), bench.room(count)];
    const block = (b: number, of: (i: number) => number) =>
      range(length).reduce((sum, i) => sum + of(b * length + i) ** 2, 0);
    kernels().functions.blockEnergies(at, length, count, energies);
    near(
      get(energies, count),
      range(count).map((b) => block(b, (i) => samples[i])),
    );
    kernels().functions.blockDifferenceEnergies(at, length, count, energies);
    near(
      get(energies, count),
      range(count).map((b) => block(b, (i) => samples[i + 1] - samples[i])),
    );
  });

  it("a ramp added, and the straight line through a series with what it leaves", () => {
    const bench = new Bench();
    // 3 + 0.5 m with 1, -2, 1 on it, which no straight line goes along with (its sum and its moment are 0).
    const [line, sums, result] = [bench.put(Float64Array.of(1, -2, 1)), bench.room(4), bench.room(3)];
    kernels().functions.addRamp(line, 0.5, 3, sums);
    near(get(sums, 3), [1, -1.5, 2]);
    kernels().functions.lineFit(sums, 3, result);
    near(get(result, 3), [0.5, 0.5, 6]);
  });

  it("square roots, and the highest line apart from the multiples of others", () => {
    const bench = new Bench();
    const density = Float64Array.of(0, 1, 9, 1, 4, 25, 4, 1, 16, 1, 0);
    const [at, other, result] = [bench.put(density), bench.put(Float64Array.of(49)), bench.room(6)];
    const { functions } = kernels();
    functions.roots(at, density.length, result);
    expect([...kernels().f32.slice(result / 4, result / 4 + 6)]).toEqual([0, 1, 3, 1, 2, 5]);
    // Bins of 10 Hz, lines at 20, 50 and 80: that at 50 stands beside 49, within 2 Hz but not within 0.5.
    expect(functions.highestApart(at, 1, 10, 10, other, 1, 0.5, 0)).toBe(5);
    expect(functions.highestApart(at, 1, 10, 10, other, 1, 2, 0)).toBe(8);
    expect(functions.highestApart(at, 1, 8, 10, other, 1, 2, 0)).toBe(2);
    // 80 lies 18 Hz from twice 49: out of reach of a guard of 2 Hz and 0.15 of 80, not of 0.25.
    expect(functions.highestApart(at, 1, 10, 10, other, 1, 2, 0.15)).toBe(8);
    expect(functions.highestApart(at, 1, 10, 10, other, 1, 2, 0.25)).toBe(2);
    expect(functions.highestApart(at, 6, 8, 10, other, 1, 2, 0)).toBe(-1);
  });

  it("sum, and shares of the mean within bounds", () => {
    const bench = new Bench();
    const [values, zeros] = [Float64Array.of(1, 2, 9, 4), new Float64Array(2)].map((one) => bench.put(one));
    expect(kernels().functions.total(values, 4)).toBe(16);
    kernels().functions.toShares(values, 4, 0.3, 2);
    near(get(values, 4), [0.3, 0.5, 2, 1]);
    kernels().functions.toShares(zeros, 2, 0.3, 2);
    near(get(zeros, 2), [1, 1]);
  });

  it("mean ratio of spectra, weak places left out or counted as weak", () => {
    const bench = new Bench();
    // Before: 100, 1, 0.5, 4; after: 200, 8, 0.5, 1. A hundredth of the strongest is 2.
    const [start, middle, end] = [
      [1, 2, 3, 4],
      [101, 3, 3.5, 8],
      [301, 11, 4, 9],
    ].map((values) => bench.put(Float64Array.from(values)));
    const expected = (Math.log(2) + Math.log(8 / 2) + Math.log(4 / 2)) / 3;
    near([kernels().functions.meanLogRatio(start, middle, end, 4, 0.01)], [expected]);
    expect(kernels().functions.meanLogRatio(start, start, start, 4, 0.01)).toBe(0);
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

it("blocks of samples: power of each, sums and extremes added up", () => {
  const bench = new Bench();
  const [length, count] = [11, 3];
  const samples = Float32Array.from(noise(length * count, 17));
  const [at, result, powers] = [bench.put32(samples), bench.room(4), bench.room(2)];
  const totals = bench.put(Float64Array.of(5, 7, -9, 9));
  kernels().functions.summariseBlocks(at, length, count, result, powers, totals);
  const squares = (values: Float32Array) => values.reduce((sum, value) => sum + value * value, 0);
  const expected = range(count).map((b) => squares(samples.subarray(b * length, (b + 1) * length)) / length);
  // 32-bit floats of about 1.
  near([...kernels().f32.slice(powers / 4, powers / 4 + count)], expected, 1e-6);
  near(get(totals, 4), [
    5 + samples.reduce((sum, value) => sum + value, 0),
    7 + squares(samples),
    Math.max(...samples),
    Math.min(...samples),
  ]);
});

it("the smallest step between samples, and a constant taken off", () => {
  const bench = new Bench();
  const at = bench.put32(Float32Array.of(0.5, 0.5, 0.25, 0.375, -1));
  const { functions } = kernels();
  expect(functions.smallestStep(at, 5, Number.POSITIVE_INFINITY)).toBe(0.125);
  expect(functions.smallestStep(at, 3, Number.POSITIVE_INFINITY)).toBe(0.25);
  expect(functions.smallestStep(at, 5, 0.1)).toBe(0.1);
  functions.subtractConstant(at, 4, 0.125);
  expect([...kernels().f32.slice(at / 4, at / 4 + 5)]).toEqual([0.375, 0.375, 0.125, 0.25, -1]);
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

it("smoothing by symmetric weights, scaled up at the ends where some fall outside", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 8 }),
      fc.integer({ min: 0, max: 40 }),
      fc.integer(),
      (half, count, seed) => {
        const bench = new Bench();
        const values = noise(count, seed);
        const plain = noise(half + 1, seed + 1).map((value) => 0.1 + Math.abs(value));
        const total = plain.reduce((sum, weight, away) => sum + (away === 0 ? weight : 2 * weight), 0);
        const weights = plain.map((weight) => weight / total);
        const [pValues, pWeights, smoothed] = [bench.put(values), bench.put(weights), bench.room(count)];
        kernels().functions.smooth(pValues, pWeights, half, count, smoothed);
        near(
          get(smoothed, count),
          range(count).map((m) => {
            const near = range(count).filter((i) => Math.abs(i - m) <= half);
            const weight = (i: number) => weights[Math.abs(i - m)];
            const sum = near.reduce((all, i) => all + weight(i) * values[i], 0);
            return sum / near.reduce((all, i) => all + weight(i), 0);
          }),
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

it("a series shorter than a filter gives nothing, and touches nothing", () => {
  const bench = new Bench();
  const [series, filter, output] = [
    bench.put(Float64Array.of(1, 2)),
    bench.put(noise(5, 43)),
    bench.put(Float64Array.of(7, 8)),
  ];
  kernels().functions.filterSeries(series, 2, filter, 4, output);
  expect(get(output, 2)).toEqual([7, 8]);
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
