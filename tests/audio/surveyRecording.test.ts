import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { SurveyAccumulator } from "../../src/audio/SurveyAccumulator.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { noise } from "./syntheticTake.js";

const RATE = 48000;

function sine(amplitude: number, frequencyHz: number, offset = 0, seconds = 1): Float32Array {
  const turn = (2 * Math.PI * frequencyHz) / RATE;
  return Float32Array.from({ length: seconds * RATE }, (_, i) => offset + amplitude * Math.sin(turn * i));
}

describe("surveyRecording", () => {
  it("measures a sine with an offset", () => {
    const { channels, leftRightCorrelation } = surveyRecording(memoryRecording([sine(0.5, 100, 0.02)], RATE));
    // A sine of amplitude a has RMS a / sqrt 2 (definition); whole periods, so only float32 rounding is left.
    expect(channels[0].rms).toBeCloseTo(0.5 / Math.SQRT2, 6);
    expect(channels[0].dcMean).toBeCloseTo(0.02, 7);
    expect(channels[0].peak).toBeCloseTo(0.5, 5);
    expect(channels[0].maximum).toBeCloseTo(0.52, 5);
    expect(channels[0].minimum).toBeCloseTo(-0.48, 5);
    expect(channels[0].clippedRunCount).toBe(0);
    expect(leftRightCorrelation).toBeNull();
  });

  it("gives the mean power of each 10 ms block, the last one shorter", () => {
    const samples = sine(0.5, 100).subarray(0, 480 * 9 + 100);
    samples.fill(0.1, 480 * 9);
    const survey = surveyRecording(memoryRecording([samples], RATE));
    expect(survey.blockFrames).toBe(480);
    const { blockPower } = survey.channels[0];
    expect(blockPower).toHaveLength(10);
    // One whole period of 100 Hz a block: a^2 / 2.
    for (const power of blockPower.subarray(0, 9)) expect(power).toBeCloseTo(0.125, 6);
    expect(blockPower[9]).toBeCloseTo(0.01, 6);
  });

  it("counts what can't be sound and keeps it out of everything else", () => {
    const samples = sine(0.5, 100);
    const clean = surveyRecording(memoryRecording([samples.slice()], RATE));
    samples.set([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e30], 12000);
    samples[30000] = -1001;
    const survey = surveyRecording(memoryRecording([samples, samples], RATE));
    for (const channel of survey.channels) {
      expect(channel.nonFiniteCount).toBe(5);
      expect(channel.firstNonFiniteSeconds).toBe(0.25);
      expect(channel.rms).toBeCloseTo(clean.channels[0].rms, 4);
      expect(channel.peak).toBeCloseTo(0.5, 4);
    }
    expect(survey.leftRightCorrelation).toBeCloseTo(1, 6);
    const flagged = [...survey.blockNotFinite.entries()]
      .filter(([, flag]) => flag === 1)
      .map(([block]) => block);
    expect(flagged).toEqual([25, 62]);
  });

  it("correlates the first two channels without their offsets", () => {
    const left = sine(0.5, 100, 0.3);
    const correlation = (right: Float32Array) =>
      surveyRecording(memoryRecording([left, right], RATE)).leftRightCorrelation;
    expect(correlation(sine(0.2, 100, -0.4))).toBeCloseTo(1, 5);
    expect(correlation(sine(-0.2, 100, 0.4))).toBeCloseTo(-1, 5);
    // Sines of different whole frequencies are orthogonal over a second.
    expect(correlation(sine(0.5, 150, 0.1))).toBeCloseTo(0, 5);
    expect(correlation(new Float32Array(left.length))).toBeNull();
  });

  it("does not depend on the pieces it is fed in", () => {
    const samples = Float32Array.from(noise("pink", 20000, 0.2, 4));
    samples[7777] = Number.NaN;
    const whole = surveyRecording(memoryRecording([samples, samples.map((value) => -value)], RATE));
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 3000 }), { minLength: 1, maxLength: 20 }), (lengths) => {
        const accumulator = new SurveyAccumulator(RATE, 2);
        for (let start = 0, k = 0; start < samples.length; k++) {
          const piece = samples.subarray(start, start + lengths[k % lengths.length]);
          accumulator.add([piece, piece.map((value) => -value)]);
          start += piece.length;
        }
        const survey = accumulator.finish();
        // Sums are taken in another order, hence the rounding.
        expect(survey.leftRightCorrelation).toBeCloseTo(whole.leftRightCorrelation ?? 0, 9);
        expect(survey.channels[0].rms).toBeCloseTo(whole.channels[0].rms, 9);
        expect(survey.channels[0].nonFiniteCount).toBe(1);
        expect(survey.blockNotFinite).toEqual(whole.blockNotFinite);
        const differences = survey.channels[1].blockPower.map((p, b) => p - whole.channels[1].blockPower[b]);
        expect(Math.max(...differences.map(Math.abs))).toBeLessThan(1e-7);
      }),
      { numRuns: 20 },
    );
  });

  it("reads in pieces and tells how far it is", () => {
    const shares: number[] = [];
    surveyRecording(memoryRecording([new Float32Array(150000)], RATE), (share) => shares.push(share));
    expect(shares).toHaveLength(3);
    expect(shares.at(-1)).toBe(1);
  });

  it("finds the step of a whole-number format", () => {
    const coarse = sine(0.7, 97.3).map((value) => Math.round(value * 128) / 128);
    expect(surveyRecording(memoryRecording([coarse], RATE)).channels[0].quantum).toBe(1 / 128);
    expect(surveyRecording(memoryRecording([new Float32Array(100)], RATE)).channels[0].quantum).toBeNull();
  });
});
