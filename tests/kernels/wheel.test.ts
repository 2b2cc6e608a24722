import { describe, expect, it } from "vitest";
import { fourierTables } from "../../src/kernels/fourierTables.js";
import { kernels } from "../../src/kernels/kernels.js";
import { Bench, BYTES, get, near, noise, range } from "./Bench.js";

// Kernels against what they are said to do, written out plainly in 64-bit floats.

describe("lines that keep time", () => {
  it("power of a windowed part of a series, from one bin to another", () => {
    const bench = new Bench();
    const [length, size, first, last] = [21, 32, 2, 11];
    const [series, window] = [noise(40, 81), noise(length, 82)];
    const before = noise(last - first + 1, 83);
    const [pSeries, pWindow, power] = [series, window, before].map((values) => bench.put(values));
    const [values, work] = [bench.room(size + 2), bench.room(size + 2)];
    const { factors, turns } = fourierTables(size / 2);
    // biome-ignore format: arguments of a kernel
    kernels().functions.addWindowPower(pSeries + 6 * BYTES, pWindow, length, size, values, work, factors, turns, first, last, 0.3, power);
    const expected = range(last - first + 1).map((i) => {
      const angle = (m: number) => (2 * Math.PI * (first + i) * m) / size;
      const sum = (of: (angle: number) => number) =>
        range(length).reduce((all, m) => all + window[m] * series[m + 6] * of(angle(m)), 0);
      return before[i] + 0.3 * (sum(Math.cos) ** 2 + sum(Math.sin) ** 2);
    });
    near(get(power, last - first + 1), expected);
  });

  it("the best place before each, within reach", () => {
    const bench = new Bench();
    const count = 12;
    const [best, strengths] = [noise(count, 84), noise(count, 85)];
    const reaches = Float64Array.from(range(count), (i) => i % 4);
    const factors = noise(count, 86).map(Math.abs);
    const [pBest, pReaches, pFactors, pStrengths] = [best, reaches, factors, strengths].map((values) =>
      bench.put(values),
    );
    const [next, back] = [bench.room(count), bench.room(count)];
    // biome-ignore format: arguments of a kernel
    kernels().functions.bestBefore(pBest, count, pReaches, pFactors, pStrengths, 0.4, next, back);
    const from = range(count).map((b) =>
      range(count)
        .filter((o) => Math.abs(o - b) <= reaches[b])
        .reduce((one, o) => (value(b, o) > value(b, one) ? o : one), b),
    );
    function value(b: number, o: number): number {
      return best[o] - factors[b] * (o - b) ** 2;
    }
    near(get(back, count), from);
    near(
      get(next, count),
      from.map((o, b) => value(b, o) + 0.4 * strengths[b]),
    );
  });

  it("what each step says of the knots beside it: J'J and J'r of straight lines between them", () => {
    const bench = new Bench();
    const [count, knots, stride, first, step, variance] = [30, 4, 5, 0.07, 0.1, 1.7];
    const [white, innovations] = [noise(count, 87), noise(count, 88)];
    const [pWhite, pInnovations] = [bench.put(white), bench.put(innovations)];
    const [matrix, right] = [bench.put(new Float64Array(knots * stride)), bench.put(new Float64Array(knots))];
    // biome-ignore format: arguments of a kernel
    kernels().functions.addPulls(pWhite, pInnovations, count, first, step, variance, knots, stride, matrix, right);
    const slope = (m: number, j: number) => white[m] * Math.max(0, 1 - Math.abs(first + m * step - j));
    const sum = (of: (m: number) => number) => range(count).reduce((total, m) => total + of(m), 0) / variance;
    for (const j of range(knots)) {
      near(get(right + j * BYTES, 1), [sum((m) => slope(m, j) * innovations[m])]);
      near(
        get(matrix + j * stride * BYTES, knots),
        range(knots).map((k) => sum((m) => slope(m, j) * slope(m, k))),
      );
    }
  });

  it("Goertzel's recursion: the sums of a series times cosine and sine follow from its last two values", () => {
    const bench = new Bench();
    const [count, turn] = [50, 0.37];
    const series = noise(count, 89);
    const [pSeries, result] = [bench.put(series), bench.room(2)];
    kernels().functions.recursion(pSeries, count, 2 * Math.cos(turn), result);
    const [last, before] = get(result, 2);
    const sum = (of: (angle: number) => number) =>
      range(count).reduce((total, m) => total + series[m] * of(turn * m), 0);
    near([series[0] + Math.cos(turn) * last - before, Math.sin(turn) * last], [sum(Math.cos), sum(Math.sin)]);
  });

  it("one reflection of Burg's method", () => {
    const bench = new Bench();
    const [count, k] = [20, 2];
    const [forward, backward] = [noise(count, 90), noise(count, 91)];
    const [pForward, pBackward] = [bench.put(forward), bench.put(backward)];
    const late = range(count).slice(k);
    const reflection =
      (-2 * late.reduce((sum, m) => sum + forward[m] * backward[m - 1], 0)) /
      late.reduce((sum, m) => sum + forward[m] ** 2 + backward[m - 1] ** 2, 0);
    near([kernels().functions.reflect(pForward, pBackward, count, k)], [reflection]);
    near(
      get(pForward, count).slice(k),
      late.map((m) => forward[m] + reflection * backward[m - 1]),
    );
    near(
      get(pBackward, count).slice(k),
      late.map((m) => backward[m - 1] + reflection * forward[m]),
    );
    const zeros = bench.put(new Float64Array(count));
    expect(kernels().functions.reflect(zeros, zeros, count, k)).toBeNaN();
  });
});
