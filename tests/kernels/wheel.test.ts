import { describe, expect, it } from "vitest";
import { fourierTables } from "../../src/kernels/fourierTables.js";
import { kernels } from "../../src/kernels/kernels.js";
import { leastSquares } from "../../src/statistics/leastSquares.js";
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

  it("by how much sinusoids lessen the sum of squares: least squares of a constant, a cosine and a sine", () => {
    const bench = new Bench();
    const [count, step, rate, rateStep] = [50, 0.05, 1.1, 0.4];
    const plain = noise(count, 89);
    const mean = plain.reduce((sum, value) => sum + value, 0) / count;
    const series = plain.map((value) => value - mean);
    const [pSeries, gains] = [bench.put(series), bench.room(8)];
    const filled = kernels().functions.sinusoidGains(
      pSeries,
      count,
      step,
      rate,
      rateStep,
      rate + 2.5 * rateStep,
      0,
      gains,
    );
    expect(filled).toBe(3);
    const squares = (values: Float64Array) => values.reduce((sum, value) => sum + value * value, 0);
    for (const i of range(filled)) {
      const turn = 2 * Math.PI * (rate + i * rateStep) * step;
      const columns = [() => 1, Math.cos, Math.sin].map((of) => series.map((_, m) => of(turn * m)));
      const [a, b, c] = leastSquares(columns, series)!;
      const rest = series.map((value, m) => value - a - b * Math.cos(turn * m) - c * Math.sin(turn * m));
      near(get(gains + i * BYTES, 1), [squares(series) - squares(rest)]);
    }
    kernels().functions.sinusoidGains(pSeries, count, step, rate, rateStep, rate, 1e9, gains);
    expect(get(gains, 1)).toEqual([Number.NaN]);
  });

  it("a running integral between its values and beyond them, and means over a turn", () => {
    const bench = new Bench();
    // 0, 2, 3 at 0, 0.5 and 1 s: 4 a second, then 2.
    const [integral, times, result] = [
      bench.put(Float64Array.of(0, 2, 3)),
      bench.put(Float64Array.of(-0.25, 0.25, 0.75, 1.5)),
      bench.room(4),
    ];
    kernels().functions.integralsAt(integral, 3, 0.5, times, 4, result);
    near(get(result, 4), [-1, 1, 2.5, 4]);
    const values = bench.put(Float64Array.of(1, 2, 4, 8, 16, 32));
    const means = bench.room(6);
    kernels().functions.turnMeans(values, 6, 4, means);
    const [second, third] = [(0.5 + 2 + 4 + 8 + 8) / 4, (1 + 4 + 8 + 16 + 16) / 4];
    near(get(means, 6), [second, second, second, third, third, third]);
  });

  it("the phase of a path, its waves, and the times at which it passes places of the turn", () => {
    const bench = new Bench();
    const knots = bench.put(Float64Array.of(0.3, -0.1, 0.2));
    const [count, step, rate] = [12, 0.08, 1.2];
    const phase = bench.room(count);
    // Knots at 0, 0.5 and 1 s; 0 radians of the mean rate at 0.5 s.
    kernels().functions.pathPhase(knots, 3, 0.5, rate, 0.5, step, count, phase);
    const angleAt = (seconds: number) =>
      2 * Math.PI * rate * (seconds - 0.5) +
      (seconds < 0.5 ? 0.3 - 0.8 * seconds : -0.1 + 0.6 * (seconds - 0.5));
    near(
      get(phase, count),
      range(count).map((m) => angleAt((m + 0.5) * step)),
    );
    const [cosine, sine] = [bench.room(count), bench.room(count)];
    kernels().functions.waves(phase, 3, count, cosine, sine);
    near(
      get(cosine, count),
      get(phase, count).map((angle) => Math.cos(3 * angle)),
    );
    near(
      get(sine, count),
      get(phase, count).map((angle) => Math.sin(3 * angle)),
    );
    // A phase of 2 radians a second from -1 on: at place k of cells of 0.25 after (1 + 0.25 k) / 2 s.
    const even = bench.put(Float64Array.from({ length: 20 }, (_, m) => -1 + 2 * (m + 0.5) * step));
    const times = bench.room(7);
    kernels().functions.crossings(even, 20, 0.25, -3, 3, step, times);
    near(
      get(times, 7),
      range(7).map((k) => (1 + 0.25 * (k - 3)) / 2),
    );
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
