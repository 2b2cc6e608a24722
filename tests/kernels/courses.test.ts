import { describe, it } from "vitest";
import { fourierTables } from "../../src/kernels/fourierTables.js";
import { kernels } from "../../src/kernels/kernels.js";
import { Bench, get, near, noise, range } from "./Bench.js";

// Kernels against what they are said to do, written out plainly in 64-bit floats.

describe("the course of partials", () => {
  const count = 37;
  const [a, b, gain, w] = range(4).map((seed) => noise(count, seed + 61));
  const sum = (of: (m: number) => number) => range(count).reduce((total, m) => total + of(m), 0);

  it("phase without jumps, less its mean", () => {
    const bench = new Bench();
    // Less than half a turn from frame to frame, up to seven turns in all.
    const angles = range(count).map((m) => 1.3 * m + 0.8 * Math.sin(m));
    const [pa, pb] = [Math.cos, Math.sin].map((of) =>
      bench.put(Float64Array.from(angles, (angle, m) => (1 + 0.3 * Math.cos(m)) * of(angle))),
    );
    const phases = bench.room(count);
    kernels().functions.unwrap(pa, pb, count, phases);
    const mean = sum((m) => angles[m]) / count;
    near(
      get(phases, count),
      angles.map((angle) => angle - mean),
    );
  });

  it("least power of the mean power, energy, and sizes", () => {
    const bench = new Bench();
    const [pa, pb, total] = [bench.put(a), bench.put(b), bench.put(gain)];
    const powers = range(count).map((m) => a[m] ** 2 + b[m] ** 2);
    const energy = powers.reduce((all, power) => all + power, 0);
    const { functions } = kernels();
    near([functions.leastShare(pa, pb, count)], [(count * Math.min(...powers)) / energy]);
    near([functions.energy(pa, pb, count)], [energy]);
    functions.addSizes(pa, pb, count, total);
    near(
      get(total, count),
      powers.map((power, m) => gain[m] + Math.sqrt(power)),
    );
  });

  it("a series times a factor added, and the energy of what it leaves", () => {
    const bench = new Bench();
    const [pa, pb] = [bench.put(a), bench.put(b)];
    near([kernels().functions.strayEnergy(pa, pb, 0.7, count)], [sum((m) => (a[m] - 0.7 * b[m]) ** 2)]);
    kernels().functions.addScaled(pa, -1.3, count, pb);
    near(
      get(pb, count),
      range(count).map((m) => b[m] - 1.3 * a[m]),
    );
  });

  it("sums for the signal-to-noise of a phasor", () => {
    const bench = new Bench();
    const [lag, bend] = [9, 6];
    const [pa, pb, sizes, result] = [bench.put(a), bench.put(b), bench.room(count), bench.room(6)];
    kernels().functions.phasorSums(pa, pb, count, lag, bend, sizes, result);
    const size = (m: number) => Math.hypot(a[m], b[m]);
    const lagged = (of: (m: number) => number) => sum((m) => (m < lag ? 0 : of(m)));
    near(get(result, 5), [
      sum(size),
      sum((m) => size(m) ** 2),
      lagged((m) => a[m] * a[m - lag] + b[m] * b[m - lag]),
      lagged((m) => b[m] * a[m - lag] - a[m] * b[m - lag]),
      sum((m) =>
        m < bend || m + bend >= count ? 0 : (size(m) - (size(m - bend) + size(m + bend)) / 2) ** 2,
      ),
    ]);
  });

  it("powers added, sums of both parts, and turns", () => {
    const bench = new Bench();
    const [pa, pb, pg, result] = [...[a, b, gain].map((values) => bench.put(values)), bench.room(2)];
    const turns = bench.room(2 * count);
    const { functions } = kernels();
    functions.addFramePowers(pa, pb, count, pg);
    near(
      get(pg, count),
      range(count).map((m) => gain[m] + a[m] ** 2 + b[m] ** 2),
    );
    functions.frameSums(pa, pb, count, result);
    near(get(result, 2), [sum((m) => a[m]), sum((m) => b[m])]);
    functions.turnsOfCycles(pa, count, turns);
    near(
      get(turns, 2 * count),
      range(count).flatMap((m) => [Math.cos(2 * Math.PI * a[m]), -Math.sin(2 * Math.PI * a[m])]),
    );
  });

  it("sums for one amplitude along a gain", () => {
    const bench = new Bench();
    const [pa, pb, pg, pw, result] = [...[a, b, gain, w].map((values) => bench.put(values)), bench.room(4)];
    kernels().functions.gainSums(pa, pb, pg, pw, count, result);
    near(get(result, 3), [
      sum((m) => w[m] * gain[m] * a[m]),
      sum((m) => w[m] * gain[m] * b[m]),
      sum((m) => w[m] * gain[m] ** 2),
    ]);
  });
});

describe("the search for a frequency", () => {
  it("power of the weighted frames' spectrum, times a factor, on both sides of 0", () => {
    const bench = new Bench();
    const [count, size, reach] = [25, 64, 5];
    const [a, b, w] = range(3).map((seed) => noise(count, seed + 71));
    const before = noise(2 * reach + 1, 75);
    const [pa, pb, pw, powers] = [a, b, w, before].map((values) => bench.put(values));
    const [values, work] = [bench.room(2 * size), bench.room(2 * size)];
    const { factors } = fourierTables(size);
    // biome-ignore format: arguments of a kernel
    kernels().functions.addSpectrum(pa, pb, pw, count, values, work, factors, size, reach, -0.6, powers);
    const expected = range(2 * reach + 1).map((i) => {
      const angle = (m: number) => (-2 * Math.PI * (i - reach) * m) / size;
      const real = (m: number) => w[m] * (a[m] * Math.cos(angle(m)) - b[m] * Math.sin(angle(m)));
      const imaginary = (m: number) => w[m] * (a[m] * Math.sin(angle(m)) + b[m] * Math.cos(angle(m)));
      const sum = (of: (m: number) => number) => range(count).reduce((total, m) => total + of(m), 0);
      return before[i] - 0.6 * (sum(real) ** 2 + sum(imaginary) ** 2);
    });
    near(get(powers, 2 * reach + 1), expected);
  });

  it("the share that a line leaves, and 1 where too little of it is uncovered", () => {
    const bench = new Bench();
    const [explained, uncovered] = [
      [3, 3, 900],
      [10, 0.1, 2],
    ].map((values) => bench.put(Float64Array.from(values)));
    kernels().functions.leftShares(explained, uncovered, 3, 0.2, 4);
    // 1 - 3 / 10 / 4; covered; no line explains more than 0.999.
    near(get(explained, 3), [0.925, 1, 0.001]);
  });

  it("the offset of the least product", () => {
    const bench = new Bench();
    const [stride, binHz, span, step] = [9, 0.5, 1, 0.25];
    const left = noise(2 * stride, 77).map(Math.abs);
    const [numbers, reaches] = [
      [1, 2],
      [2, 4],
    ];
    const [pNumbers, pReaches] = [numbers, reaches].map((values) => bench.put(Float64Array.from(values)));
    const [pLeft, result] = [bench.put(left), bench.room(2)];
    // biome-ignore format: arguments of a kernel
    kernels().functions.leastProduct(pNumbers, pReaches, pLeft, stride, 2, span, step, binHz, result);
    const products = range(9).map((i) => {
      const offset = -span + i * step;
      const row = (n: number) => left[n * stride + Math.round((numbers[n] * offset) / binHz) + reaches[n]];
      return { offset, product: row(0) * row(1) };
    });
    const best = products.reduce((one, other) => (other.product < one.product ? other : one));
    near(get(result, 2), [best.offset, best.product]);
  });
});
