import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import {
  type BodyMode,
  type Tap,
  type TappedBodyOptions,
  tappedBody,
} from "../../src/synthesis/tappedBody.js";
import { readTaps } from "../../src/tap/readTaps.js";
import type { TapReading } from "../../src/tap/TapReading.js";
import { bowedOn, lightBody, RATE_HZ } from "./exampleBodies.js";
import { recordingOf } from "./tapTake.js";

const SEED = 912_000;
const body = lightBody.slice(0, 6);

function evenTaps(count = 5): Tap[] {
  return Array.from({ length: count }, (_, i) => ({
    atSeconds: 1 + 1.1 * i,
    force: 0.8,
    contactSeconds: 0.001,
  }));
}

function sound(
  taps: readonly Tap[],
  modes: readonly BodyMode[] = body,
  more: Partial<TappedBodyOptions> = {},
) {
  return tappedBody({
    modes,
    taps,
    durationSeconds: 7,
    sampleRateHz: RATE_HZ,
    seed: SEED,
    noiseDb: -45,
    ...more,
  }).samples;
}

function read(samples: Float32Array): TapReading {
  return readTaps(recordingOf({ samples, sampleRateHz: RATE_HZ }));
}

function expectBody({ modes }: TapReading): void {
  expect(modes).toHaveLength(body.length);
  for (const [k, { frequencyHz, q }] of body.entries()) {
    // The bars asked for; the bound of these takes is a tenth of them.
    expect(Math.abs(modes[k]!.frequencyHz.value / frequencyHz - 1)).toBeLessThan(0.001);
    expect(Math.abs(modes[k]!.q.value / q - 1)).toBeLessThan(0.05);
  }
}

const codes = ({ findings }: TapReading) => findings.map(({ code }) => code);
const lost = ({ taps }: TapReading) => taps.map(({ leftOut }) => leftOut);

describe("readTaps", () => {
  it("reads the modes of a body, and how strongly they ring", () => {
    const take = tappedBody({
      modes: body,
      taps: evenTaps(),
      durationSeconds: 7,
      sampleRateHz: RATE_HZ,
      seed: SEED + 1,
      noiseDb: -45,
    });
    const reading = read(take.samples);
    expectBody(reading);
    expect(codes(reading)).toEqual([]);
    const power = (k: number) => take.starts.reduce((sum, tap) => sum + Math.hypot(...tap[k]!) ** 2, 0);
    const strongest = Math.max(...body.map((_, k) => power(k)));
    for (const [k, mode] of reading.modes.entries()) {
      expect(mode.tapsFound).toBe(5);
      // The start of a tap is known to half a millisecond, in which these modes fall by up to 0.2 dB; noise gives as much again.
      expect(Math.abs(mode.strengthDb.value - 10 * Math.log10(power(k) / strongest))).toBeLessThan(0.5);
    }
  });

  it("reads the same whatever the gain", () => {
    const samples = sound(evenTaps());
    const [loud, quiet] = [read(samples), read(samples.map((value) => value / 32))];
    for (const [k, mode] of loud.modes.entries()) {
      // A power of two changes no digit of a 32-bit sample; what is left is the order of sums.
      expect(quiet.modes[k]!.frequencyHz.value).toBeCloseTo(mode.frequencyHz.value, 6);
      expect(quiet.modes[k]!.q.value).toBeCloseTo(mode.q.value, 6);
      expect(quiet.modes[k]!.strengthDb.value).toBeCloseTo(mode.strengthDb.value, 6);
    }
  });

  it("leaves out a tap that was hit twice, and one that the next follows too soon", () => {
    const bounce = { atSeconds: 3.2 + 0.045, force: 0.25, contactSeconds: 0.001 };
    const early = { atSeconds: 5.4 + 0.12, force: 0.8, contactSeconds: 0.001 };
    const reading = read(sound([...evenTaps(), bounce, early]));
    expectBody(reading);
    expect(lost(reading)).toEqual([null, null, "disturbed", null, "too-close", null]);
    expect(codes(reading)).toEqual(["tap-disturbed", "taps-too-close"]);
  });

  it("leaves out taps that are cut off", () => {
    const taps = evenTaps().map((tap, i) => (i === 1 ? { ...tap, force: 2 } : tap));
    const reading = read(sound(taps).map((value) => Math.min(1, Math.max(-1, 4 * value))));
    expectBody(reading);
    expect(lost(reading)).toEqual([null, "clipped", null, null, null]);
    expect(codes(reading)).toContain("tap-clipped");
  });

  it("tells mains hum from modes", () => {
    const hum = [50, 100, 150, 200].map((frequencyHz, i) => ({
      frequencyHz: 1.0003 * frequencyHz,
      levelDb: -30 - 3 * i,
    }));
    const reading = read(sound(evenTaps(), body, { hum }));
    expectBody(reading);
    expect(reading.leftOut.every(({ reason }) => reason === "steady")).toBe(true);
    expect(codes(reading)).toContain("steady-line");
  });

  it("tells a string that rings, and asks for it to be damped", () => {
    const string = [1, 2, 3, 4].map((number) => ({
      frequencyHz: 98 * number,
      q: 150 + 110 * number,
      strengthDb: -14 - 4 * number,
    }));
    const reading = read(sound(evenTaps(), [...body, ...string]));
    expectBody(reading);
    expect(reading.leftOut.map(({ reason }) => reason)).toEqual(["string", "string", "string", "string"]);
    expect(reading.leftOut.map(({ frequencyHz }) => Math.round(frequencyHz))).toEqual([98, 196, 294, 392]);
    expect(codes(reading)).toEqual(["string-rings"]);
  });

  it("says so where there are too few taps", () => {
    const reading = read(sound(evenTaps(1)));
    expect(codes(reading)).toContain("few-taps");
    expect(reading.modes.every(({ strengthDb }) => strengthDb.interval95 === null)).toBe(true);
  });

  it("refuses what is no taps", () => {
    const random = new SeededRandom(SEED + 2);
    const noise = Float32Array.from({ length: 4 * RATE_HZ }, () => random.normal(0.05));
    expect(codes(read(noise))).toContain("no-tap");
    expect(codes(read(bowedOn(lightBody, 9, [98, 196])))).toContain("not-taps");
    const claps = Float32Array.from({ length: 4 * RATE_HZ }, (_, i) => {
      const seconds = i / RATE_HZ;
      const size = seconds > 1 ? 0.3 * Math.exp(-60 * (seconds % 1)) : 0;
      return random.normal(size + 0.0005);
    });
    const reading = read(claps);
    expect(codes(reading)).toContain("not-taps");
    expect(reading.modes).toEqual([]);
  });

  it("refuses what holds no sound", () => {
    const codeOf = (samples: Float32Array) => {
      try {
        read(samples);
      } catch (error) {
        return error instanceof AnalysisError ? error.code : "other";
      }
      return "none";
    };
    expect(codeOf(new Float32Array(0))).toBe("recording-empty");
    expect(codeOf(new Float32Array(RATE_HZ))).toBe("recording-silent");
    expect(codeOf(new Float32Array(RATE_HZ).fill(Number.NaN))).toBe("recording-not-finite");
    expect(codeOf(new Float32Array(301 * RATE_HZ))).toBe("value-out-of-range");
  });
});
