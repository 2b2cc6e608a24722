import { beforeAll, describe, expect, it } from "vitest";
import { fitJointly } from "../../src/partials/joint/fitJointly.js";
import { median } from "../../src/signal/median.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents, shiftByCents } from "../../src/units/cents.js";
import { addNoise, NOTES_HZ, steadySeries } from "../synthesis/testTones.js";
import { cramerRaoBoundHz, hertzToCents } from "./cramerRaoBound.js";
import { jointCramerRaoBoundHz, type SteadySeries } from "./jointCramerRaoBound.js";

/** Partial n at 1/n, with phases of its own. */
function oneOverN(
  frequencyHz: number,
  count: number,
  fundamental: number,
  random: SeededRandom,
): SteadySeries {
  return {
    frequencyHz,
    amplitudes: Array.from({ length: count }, (_, n) => fundamental / (n + 1)),
    phases: Array.from({ length: count }, () => random.uniform(0, 2 * Math.PI)),
  };
}

describe("the Cramer-Rao bound of two series", () => {
  // 48000 samples at 48 kHz, worked by the formula for one series (Rife & Boorstyn 1974); at 20 dB A^2 / 2 s^2 = 100.
  const deviation = Math.sqrt(1 / 200);
  const far = { frequencyHz: 3000, amplitudes: [1, 1, 1], phases: [0, 1, 2] };

  it("is that of a sine alone where the other series is far: 440 Hz, 9.90132e-4 cents", () => {
    const sine = { frequencyHz: 440, amplitudes: [1], phases: [0.7] };
    const [boundHz] = jointCramerRaoBoundHz([sine, far], deviation, 48000, 48000);
    // Whole cycles in a second: what is left in common with the other lines, 2560 Hz and more away, is
    // sqrt(12) / (2 pi 2560) of the amplitude, squared in the bound.
    expect(Math.abs(hertzToCents(boundHz, 440) / 9.90132e-4 - 1)).toBeLessThan(1e-5);
  });

  it("is that of a series alone where the other is far: 65.41 Hz, ten equal partials, 3.394466e-4 cents", () => {
    const random = new SeededRandom(31);
    for (let run = 0; run < 5; run++) {
      const series = { ...oneOverN(65.41, 10, 1, random), amplitudes: new Array(10).fill(1) };
      const [boundHz] = jointCramerRaoBoundHz([series, far], deviation, 48000, 48000);
      // The formula neglects what neighbouring partials, d = 65.41 Hz apart, have in common over a second: up to 3 / (pi d T)
      // = 1.5 % in the information of two of them, half of that in the bound, either way with their phases.
      expect(Math.abs(hertzToCents(boundHz, 65.41) / 3.394466e-4 - 1)).toBeLessThan(0.0075);
    }
  });

  /** The bound over that of each string alone, for 30 sets of phases. 1/n; both share `shared` partials, over one second. */
  function growth(ratio: 1 | 2, shared: number, cycles: number) {
    const random = new SeededRandom(32);
    const [rate, lowHz] = [4000, 65.4];
    const highHz = ratio * lowHz + cycles / shared;
    const runs = Array.from({ length: 30 }, () => {
      const pair = [oneOverN(lowHz, ratio * shared, 1, random), oneOverN(highHz, shared, 1, random)];
      return jointCramerRaoBoundHz(pair, 0.1, rate, rate).map(
        (boundHz, i) => boundHz / cramerRaoBoundHz(pair[i].amplitudes, 0.1, rate, rate),
      );
    });
    return { lower: runs.map(([lower]) => lower), upper: runs.map(([, upper]) => upper) };
  }

  // Errors of a maximum-likelihood fit over those of each series alone, simulated elsewhere and rounded to two digits: the
  // tolerance is 5 %, for the rounding and for other numbers of partials than were taken there.
  it.each([
    [1, 1.95],
    [0.5, 4],
  ])("for two close series of %d cycles at the highest shared partial grows %d times", (cycles, times) => {
    const { lower, upper } = growth(1, 10, cycles);
    for (const one of [lower, upper]) expect(Math.abs(median(one) / times - 1)).toBeLessThan(0.05);
  });

  it("for two close series depends on the phases: at worst 2.7 times at 1 cycle, 1.55 at 1.5", () => {
    const one = growth(1, 10, 1);
    expect(Math.max(...one.lower, ...one.upper)).toBeLessThan(2.75);
    expect(Math.max(...one.lower, ...one.upper)).toBeGreaterThan(2.1);
    const more = growth(1, 10, 1.5);
    expect(Math.max(...more.lower, ...more.upper)).toBeLessThan(1.6);
    expect(Math.max(...more.lower, ...more.upper)).toBeGreaterThan(1.3);
  });

  it.each([
    [1, 1.9],
    [0.25, 7.6],
  ])(
    "for an octave of %d cycles grows %d times for the upper string and at most 1.4 for the lower",
    (cycles, times) => {
      const { lower, upper } = growth(2, 8, cycles);
      expect(Math.abs(median(upper) / times - 1)).toBeLessThan(0.05);
      expect(Math.max(...lower)).toBeLessThan(1.45);
      expect(Math.min(...lower)).toBeGreaterThan(1);
    },
  );
});

const RATE = 8000;
const EDGE_SECONDS = 0.2;
const SECONDS = 4;
const TRIALS = 40;
/** Partials that the fit looks at, and that the synthesis has. */
const TOP_HZ = 2900;
const SHARED_OF_G3 = Math.floor(TOP_HZ / NOTES_HZ.G3);

interface Case {
  readonly name: string;
  readonly frequenciesHz: readonly [number, number];
}

/** G2 and a G3 that goes through so many cycles against it at the highest partial. */
const octaveHz = (cycles: number): [number, number] => [
  NOTES_HZ.G2,
  2 * NOTES_HZ.G2 + cycles / SHARED_OF_G3 / SECONDS,
];
const cases: Case[] = [
  { name: "C2 and G2", frequenciesHz: [NOTES_HZ.C2, NOTES_HZ.G2] },
  { name: "G2 and G3, 1.5 cycles at the highest partial", frequenciesHz: octaveHz(1.5) },
  { name: "G2 and G3, 4 cycles at the highest partial", frequenciesHz: octaveHz(4) },
];

function runTrials({ frequenciesHz }: Case, signalToNoiseDb: number) {
  const random = new SeededRandom(77);
  const amplitude = 0.1;
  const deviation = amplitude / Math.SQRT2 / 10 ** (signalToNoiseDb / 20);
  const strings = frequenciesHz.map((hz) => oneOverN(hz, Math.floor(TOP_HZ / hz), amplitude, random));
  const tone = new Float32Array(Math.round((SECONDS + 2 * EDGE_SECONDS) * RATE));
  for (const { frequencyHz, amplitudes, phases } of strings) {
    const one = steadySeries(frequencyHz, amplitudes, phases, tone.length, RATE);
    for (let i = 0; i < tone.length; i++) tone[i] += one[i];
  }
  const trials = Array.from({ length: TRIALS }, (_, trial) => {
    const samples = addNoise(Float32Array.from(tone), deviation, 5000 + trial);
    const segment = { samples, sampleRateHz: RATE, firstSeconds: 0 };
    const starts = frequenciesHz.map((hz) => shiftByCents(hz, random.uniform(-10, 10)));
    return fitJointly(segment, EDGE_SECONDS, EDGE_SECONDS + SECONDS, starts, 15);
  });
  const atStart = strings.map((one) => ({
    ...one,
    phases: one.phases.map((phase, n) => phase + 2 * Math.PI * (n + 1) * one.frequencyHz * EDGE_SECONDS),
  }));
  const bounds = jointCramerRaoBoundHz(atStart, deviation, SECONDS * RATE, RATE);
  return frequenciesHz.map((hz, i) => {
    const errors = trials.map((fits) => cents(fits[i].frequencyHz, hz));
    return {
      rmsCents: Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / TRIALS),
      meanCents: errors.reduce((sum, error) => sum + error, 0) / TRIALS,
      boundCents: hertzToCents(bounds[i], hz),
      followed: trials.every((fits) => fits[i].followed),
    };
  });
}

/**
 * Of a string whose course strays no more than noise makes it, the slope of the whole course is taken, which is the
 * maximum-likelihood frequency (the mean of a moving pitch is known from its two ends alone: sqrt(T / 6 t) times the bound,
 * 6.3 times for T = 4 s and ends of one frame of 1/60 s). 40 trials know an rms to 11 %. Measured: 1.06 to 1.83 times.
 */
const LARGEST_RATIO = 2.2;
/** It does not know the answer: two standard errors below the bound. */
const LEAST_RATIO = 0.8;
/**
 * Rounds of following end once no string moves by 0.001 cent; the upper string of an octave comes nearer slowly, in steps of
 * that size. Measured 0.0047 cents where the two go through 1.5 cycles, a tenth of the project's aim of 0.05.
 */
const LARGEST_REST_CENTS = 0.01;

describe.each(cases)("fitJointly in noise: $name, partials at 1/n, 4 s", (given) => {
  const upperIsShared = given.frequenciesHz[1] > 1.9 * given.frequenciesHz[0];

  describe("fundamental 20 dB above the noise of the band", () => {
    let found: ReturnType<typeof runTrials> = [];
    beforeAll(() => {
      found = runTrials(given, 20);
    });

    it("follows both", () => {
      expect(found.map(({ followed }) => followed)).toEqual([true, true]);
    });

    it("comes near the Cramer-Rao bound of the two, but for what the rounds leave of a string without own partials", () => {
      for (const [i, { rmsCents, boundCents }] of found.entries()) {
        const isShared = i === 1 && upperIsShared;
        const largest = isShared ? LARGEST_REST_CENTS : LARGEST_RATIO * boundCents;
        expect(rmsCents).toBeLessThan(largest);
        expect(rmsCents / boundCents).toBeGreaterThan(LEAST_RATIO);
      }
    });
  });

  it("has no floor that matters once noise is gone, at 50 dB", () => {
    const rms = runTrials(given, 50).map(({ rmsCents }) => rmsCents);
    // Far below what any string holds still to.
    expect(rms[0]).toBeLessThan(0.0005);
    expect(rms[1]).toBeLessThan(upperIsShared ? LARGEST_REST_CENTS : 0.0005);
  });
});
