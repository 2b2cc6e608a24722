import { describe, expect, it } from "vitest";
import { type PluckTrials, pluckTrials, quantile } from "../sympathetic/pluckTrials.js";

/**
 * Made-up takes: 1 to 8 strings from C3 to C6, off by up to 35 cents, B 1e-5 to 1e-3, T60 0.5 to 6 s, plucked 0.7 to 1.6 s apart at
 * any place between 0.08 and 0.45 of their length, by up to 12 dB unlike, in any order, all ringing on (octaves and fifths among them).
 *
 * Truth: the first partial's mean frequency over the stretch that was read, weighted with its energy, without the glide; of one
 * decaying sine, its frequency.
 */
const kinds = [
  {
    name: "noise at 30 dB, other strings answering at shared partials",
    from: 20100,
    takes: 26,
    wish: { noiseDb: 30, coupling: 0.1 },
    // Bar of the command: 0.5 cent. Strings that fade in half a second at 30 dB are at the limit that noise sets (Cramer-Rao).
    within: 0.98,
    worstCents: 2,
  },
  {
    name: "noise at 30 dB, a glide of up to 10 cents",
    from: 20200,
    takes: 26,
    wish: { noiseDb: 30, glideCents: 10 },
    within: 0.97,
    worstCents: 2,
  },
  {
    name: "noise at 40 dB, two polarisations up to 0.5 Hz apart",
    from: 20300,
    takes: 26,
    wish: { noiseDb: 40, splitHz: 0.5 },
    // Where a string fades before one beat is over, beat and glide look alike: measured, up to 4 % off by more, and said to be unsure.
    within: 0.92,
    worstCents: 6,
  },
] as const;

const all: PluckTrials[] = [];

describe("plucks against their truth", () => {
  it.each(kinds)(
    "$name",
    ({ name, from, takes, wish, within, worstCents }) => {
      const trials = pluckTrials(from, from + takes, wish);
      all.push(trials);
      const { errorsCents, played, missed, invented, misplaced } = trials;
      const good = errorsCents.filter((error) => error <= 0.5).length / errorsCents.length;
      console.log(
        `${name}: ${played} plucks, ${missed} missed, ${invented} invented, ${misplaced} of another string; error ` +
          `median ${quantile(errorsCents, 0.5).toFixed(3)}, 95 % ${quantile(errorsCents, 0.95).toFixed(2)}, worst ` +
          `${errorsCents.at(-1)!.toFixed(2)} cents, ${(100 * good).toFixed(1)} % within 0.5; interval holds ` +
          `${(100 * trials.covered).toFixed(1)} %, half width ${trials.halfWidthCents.toFixed(3)}`,
      );
      expect(quantile(errorsCents, 0.5)).toBeLessThan(0.1);
      expect(good).toBeGreaterThanOrEqual(within);
      expect(errorsCents.at(-1)).toBeLessThan(worstCents);
      // In trials 3 of 1,008 beginnings were missed, and as many found where there was none.
      expect(missed).toBeLessThanOrEqual(0.02 * played);
      expect(invented).toBeLessThanOrEqual(0.01 * played);
      expect(misplaced).toBe(0);
    },
    400_000,
  );

  it("the interval holds the truth of all of them, and of strings whose plucks wander", () => {
    // Plucks that differ by 0.4 cent: the interval is for where they wander about.
    all.push(pluckTrials(20400, 20416, { noiseDb: 35, wanderCents: 0.4, plucksAString: 3 }));
    const strings = all.reduce((sum, trials) => sum + trials.strings, 0);
    const share = all.reduce((sum, trials) => sum + (trials.covered * trials.strings) / strings, 0);
    console.log(
      `interval holds ${(100 * share).toFixed(1)} % of ${strings}; wandering ${(100 * all.at(-1)!.covered).toFixed(1)} %`,
    );
    expect(strings).toBeGreaterThan(300);
    // Aim 93 to 97 %; the standard error of 400 and more is one point.
    expect(share).toBeGreaterThan(0.92);
    expect(share).toBeLessThan(0.985);
  }, 400_000);

  it("reads what has everything at once: glide, polarisations, answers", () => {
    const { errorsCents, played, missed, invented, misplaced, covered } = pluckTrials(20500, 20518, {
      noiseDb: 40,
      glideCents: 10,
      splitHz: 0.5,
      coupling: 0.05,
    });
    const good = errorsCents.filter((error) => error <= 0.5).length / errorsCents.length;
    console.log(
      `all at once: ${played} plucks, median ${quantile(errorsCents, 0.5).toFixed(3)}, worst ${errorsCents.at(-1)!.toFixed(2)}, ` +
        `${(100 * good).toFixed(1)} % within 0.5, interval holds ${(100 * covered).toFixed(1)} %`,
    );
    // What one pluck can't tell: a glide and a beat that is not over look alike. No bar of the command is claimed here.
    expect(quantile(errorsCents, 0.5)).toBeLessThan(0.25);
    expect(good).toBeGreaterThan(0.75);
    expect(missed + invented + misplaced).toBeLessThanOrEqual(0.03 * played);
  }, 400_000);
});
