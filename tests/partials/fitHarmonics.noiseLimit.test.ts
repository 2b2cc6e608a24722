import { beforeAll, describe, expect, it } from "vitest";
import { fitHarmonics } from "../../src/partials/fitHarmonics.js";
import { median } from "../../src/signal/median.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents, shiftByCents } from "../../src/units/cents.js";
import { addNoise, NOTES_HZ, steadySeries } from "../synthesis/testTones.js";
import { cramerRaoBoundHz, hertzToCents } from "./cramerRaoBound.js";

describe("the Cramer-Rao bound itself", () => {
  // Worked values for N = 48000 at 48 kHz by the formula of Rife & Boorstyn 1974, seven digits; at 20 dB A^2 / 2 s^2 = 100.
  const deviation = Math.sqrt(1 / 200);

  it("of one sine of 440 Hz at 20 dB over one second is 2.516461e-4 Hz or 9.90132e-4 cents", () => {
    const bound = cramerRaoBoundHz([1], deviation, 48000, 48000);
    expect(bound).toBeCloseTo(2.516461e-4, 10);
    expect(hertzToCents(bound, 440)).toBeCloseTo(9.90132e-4, 9);
  });

  it("of 65.41 Hz with ten equal partials at 20 dB each is 1.282507e-5 Hz or 3.394466e-4 cents", () => {
    const bound = cramerRaoBoundHz(new Array(10).fill(1), deviation, 48000, 48000);
    expect(bound).toBeCloseTo(1.282507e-5, 11);
    expect(hertzToCents(bound, 65.41)).toBeCloseTo(3.394466e-4, 10);
  });
});

const RATE = 8000;
const MARGIN = 640;
const TRIALS = 200;

interface Case {
  readonly name: string;
  readonly frequencyHz: number;
  readonly amplitudes: readonly number[];
  /** Of the fundamental alone, in the noise of the whole band. */
  readonly signalToNoiseDb: number;
  readonly seconds: number;
}

const oneOverN = (count: number) => Array.from({ length: count }, (_, index) => 0.2 / (index + 1));

const cases: Case[] = [
  { name: "one sine of 440 Hz", frequencyHz: 440, amplitudes: [0.1], signalToNoiseDb: 20, seconds: 1 },
  {
    name: "65.41 Hz with ten equal partials",
    frequencyHz: 65.41,
    amplitudes: new Array(10).fill(0.05),
    signalToNoiseDb: 20,
    seconds: 1,
  },
  { name: "G4, 1/n", frequencyHz: NOTES_HZ.G4, amplitudes: oneOverN(7), signalToNoiseDb: 10, seconds: 2 },
  { name: "G2, 1/n", frequencyHz: NOTES_HZ.G2, amplitudes: oneOverN(30), signalToNoiseDb: 30, seconds: 1 },
  // Here a third of the partials lies too near the noise to be followed, which costs what is allowed in all.
  {
    name: "C3, 1/n, noisy",
    frequencyHz: NOTES_HZ.C3,
    amplitudes: oneOverN(20),
    signalToNoiseDb: 10,
    seconds: 2,
  },
];

function runTrials({ frequencyHz, amplitudes, signalToNoiseDb, seconds }: Case) {
  const random = new SeededRandom(17);
  const deviation = amplitudes[0] / Math.SQRT2 / 10 ** (signalToNoiseDb / 20);
  const errors: number[] = [];
  const claimed: number[] = [];
  for (let trial = 0; trial < TRIALS; trial++) {
    const truthHz = shiftByCents(frequencyHz, random.uniform(-10, 10));
    const phases = amplitudes.map(() => random.uniform(0, 2 * Math.PI));
    const samples = steadySeries(truthHz, amplitudes, phases, seconds * RATE + 2 * MARGIN, RATE);
    addNoise(samples, deviation, 1000 + trial);
    const from = MARGIN / RATE;
    const fit = fitHarmonics(
      { samples, sampleRateHz: RATE, firstSeconds: 0 },
      from,
      from + seconds,
      frequencyHz,
    );
    expect(fit).not.toBeNull();
    errors.push(cents(fit!.frequencyHz, truthHz));
    claimed.push(fit!.noiseErrorCents);
  }
  const boundHz = cramerRaoBoundHz(amplitudes, deviation, seconds * RATE, RATE);
  return {
    rms: Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / TRIALS),
    mean: errors.reduce((sum, error) => sum + error, 0) / TRIALS,
    claimed: median(claimed),
    bound: hertzToCents(boundHz, frequencyHz),
  };
}

// 200 trials: the rms error is known to 1 / sqrt(400) = 5 %.
describe.each(cases)(
  "fitHarmonics at the limit of noise: $name, $signalToNoiseDb dB, $seconds s",
  (given) => {
    const noisy = given.name.includes("noisy");
    let [rms, mean, claimed, bound] = [0, 0, 0, 0];
    beforeAll(() => {
      ({ rms, mean, claimed, bound } = runTrials(given));
    });

    it("comes within 1.5 times the Cramer-Rao bound, and not below it", () => {
      // Measured 0.94 to 1.08 (noisy 1.31); two standard errors more.
      expect(rms / bound).toBeLessThan(noisy ? 1.5 : 1.2);
      expect(rms / bound).toBeGreaterThan(0.8); // an estimator far below the bound would know the answer
    });

    it("has no bias", () => {
      expect(Math.abs(mean) / rms).toBeLessThan(4 / Math.sqrt(TRIALS));
    });

    it("says how uncertain it is", () => {
      // The bound of the partials that were used. Each single number follows its own measurement of the noise (some
      // 10 % over a second); the typical one is within 5 % where every partial counts. Where some don't, it stays
      // true of what was found: two standard errors of the rms.
      if (noisy) expect(Math.abs(claimed / rms - 1)).toBeLessThan(0.1);
      else expect(Math.abs(claimed / bound - 1)).toBeLessThan(0.05);
    });
  },
);
