import { beforeAll, describe, expect, it } from "vitest";
import { type CoverageOutcome, cleanTone, coverageKinds, coverageOutcome } from "./coverageCases.js";

/**
 * Does the 95 % interval hold the pitch that the string has under its cranking (what the mean of an endless take would
 * be) in 95 of 100 cases? The truth is the generator's. The seeds were chosen before the first run of this file and not
 * used to develop the method. One kind was changed after that run: the steady tones were so clean that the least printed
 * width decided, not the noise.
 */
const FIRST_SEED = 7_310_001;
const CASES_PER_KIND = 250;
/** Each case uses its seed and the two after it. */
const SEED_STEP = 3;
const RUN_MS = 240_000;

const outcomes = new Map<string, CoverageOutcome[]>();

beforeAll(() => {
  for (const [k, kind] of coverageKinds.entries()) {
    const found = Array.from({ length: CASES_PER_KIND }, (_, i) =>
      coverageOutcome(kind, FIRST_SEED + SEED_STEP * (k * CASES_PER_KIND + i)),
    );
    outcomes.set(
      kind.name,
      found.filter((one) => one !== null),
    );
  }
  console.log(table());
}, RUN_MS);

const all = () => [...outcomes.values()].flat();
const coverage = (cases: readonly CoverageOutcome[]) =>
  cases.filter(({ distance, halfWidth }) => distance <= halfWidth).length / cases.length;
/** Median half-width over the distance that 95 % of the cases stay within: 1 for an interval as narrow as can be. */
const relativeWidth = (cases: readonly CoverageOutcome[]) =>
  quantile(halfWidths(cases), 0.5) / quantile(distances(cases), 0.95);
const halfWidths = (cases: readonly CoverageOutcome[]) => cases.map(({ halfWidth }) => halfWidth);
const distances = (cases: readonly CoverageOutcome[]) => cases.map(({ distance }) => distance);

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const position = share * (sorted.length - 1);
  const below = Math.floor(position);
  return sorted[below] + (position - below) * ((sorted[below + 1] ?? sorted[below]) - sorted[below]);
}

function table(): string {
  const row = (name: string, cases: readonly CoverageOutcome[], width: number) =>
    `${name.padEnd(34)} ${String(cases.length).padStart(5)} ${(100 * coverage(cases)).toFixed(1).padStart(9)}` +
    ` ${quantile(halfWidths(cases), 0.5).toFixed(4).padStart(11)}` +
    ` ${quantile(distances(cases), 0.95).toFixed(4).padStart(11)} ${width.toFixed(2).padStart(6)}`;
  return [
    `${"95 % interval, cents".padEnd(34)} cases coverage% median half 95 % error  ratio`,
    ...[...outcomes].map(([name, cases]) => row(name, cases, relativeWidth(cases))),
    row("all (ratio: median of the kinds)", all(), medianRelativeWidth()),
  ].join("\n");
}

function medianRelativeWidth(): number {
  return quantile([...outcomes.values()].map(relativeWidth), 0.5);
}

describe("the 95 % interval of a string's pitch", () => {
  it("is given in every case", () => {
    for (const { name } of coverageKinds) expect(outcomes.get(name)).toHaveLength(CASES_PER_KIND);
  });

  it("holds the truth in 93 to 97 of 100 cases over all kinds", () => {
    // 1,500 cases: binomial standard error sqrt(0.95 * 0.05 / 1500) = 0.6 points, so 2 points are 3.5 of them.
    expect(coverage(all())).toBeGreaterThanOrEqual(0.93);
    expect(coverage(all())).toBeLessThanOrEqual(0.97);
  });

  it.each(coverageKinds.map(({ name }) => name))("holds it in at least 90 of 100 cases: %s", (name) => {
    // 250 cases: binomial standard error 1.4 points; 5 points are 3.6 of them.
    expect(coverage(outcomes.get(name)!)).toBeGreaterThanOrEqual(0.9);
  });

  it("always holds the truth of a clean steady tone, and stays within a hundredth of a cent", () => {
    for (let i = 0; i < 24; i++) {
      const outcome = coverageOutcome(cleanTone, FIRST_SEED - SEED_STEP * (i + 1));
      expect(outcome?.distance).toBeLessThanOrEqual(outcome?.halfWidth ?? 0);
      // Noise 30 dB down leaves 0.001 cents (Cramer-Rao, 4 s, 12 partials of 1/n); ten times that is no interval any more.
      expect(outcome?.halfWidth).toBeLessThan(0.01);
    }
  });

  it("is at most 1.3 times as wide as it would have to be", () => {
    // Kinds differ a hundredfold in width, so the ratio is taken in each of them and then the median of the kinds: over
    // the pooled cases the unsteady kinds alone would decide.
    expect(medianRelativeWidth()).toBeLessThanOrEqual(1.3);
  });
});
