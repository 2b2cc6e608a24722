import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { FINE_HOP_SECONDS, fineCourse } from "../../src/trompette/fineCourse.js";
import { heardOnsets } from "../../src/trompette/heardOnsets.js";
import { knockHeights } from "../../src/trompette/knockHeights.js";
import { likelyKnock } from "../../src/trompette/likelyKnock.js";
import { levelIndex, periodPeaks } from "../../src/trompette/periodPeaks.js";
import { placedKnock } from "../../src/trompette/placedKnock.js";
import type { BuzzKind } from "./buzzCarrier.js";
import { trompetteTake } from "./trompetteTake.js";

const RATE_HZ = 32_000;
const BANDS = [
  { fromHz: 2000, toHz: 4000, power: new Float64Array(0) },
  { fromHz: 4000, toHz: 8000, power: new Float64Array(0) },
];

describe("fineCourse", () => {
  it("shows a click in the frames about it and nowhere else, and silence outside the recording", () => {
    const samples = new Float32Array(RATE_HZ / 10);
    samples[RATE_HZ / 20] = 1;
    const { power } = fineCourse(memoryRecording([samples], RATE_HZ), BANDS, -0.02, 0.12);
    for (const course of power) {
      const heard = [...course.entries()].filter(([, value]) => value > 1e-9 * Math.max(...course));
      const seconds = heard.map(([k]) => k * FINE_HOP_SECONDS - 0.02);
      // The click lies at 0.05 s; a frame of 3 ms sees 1.5 ms to each side.
      expect(Math.min(...seconds)).toBeGreaterThan(0.05 - 0.0016);
      expect(Math.max(...seconds)).toBeLessThan(0.05 + 0.0016);
      const top = course.indexOf(Math.max(...course));
      expect(Math.abs(top * FINE_HOP_SECONDS - 0.02 - 0.05)).toBeLessThanOrEqual(FINE_HOP_SECONDS);
    }
  });
});

/** Knocks of the given power every 15 frames (7.5 ms, 133 Hz), the first at frame 60; nothing else. */
function knocks(...powers: number[]): Float64Array {
  const course = new Float64Array(240);
  for (const [i, power] of powers.entries()) {
    for (const [j, share] of [0.2, 0.8, 1, 0.8, 0.2].entries()) course[60 + 15 * i + j] = power * share;
  }
  return course;
}
const PERIOD = 15;
const even = () => new Array<number>(10).fill(1);

describe("knockHeights", () => {
  it("finds the height of knocks, draws a single stroke towards the others, and tells one sound from knocks", () => {
    const inner = [60, 200] as const;
    const alike = knockHeights([knocks(...even()), knocks(...even())], [inner, inner], 133);
    expect(alike.areSeparate).toBe(true);
    for (const { height } of alike.heights) expect(height).toBeCloseTo(1, 6);
    // Knocks that scatter by 3 dB: one stroke of which two are seen is drawn towards the many.
    const rough = [2, 1, 0.5, 2, 1, 0.5, 2, 1, 0.5, 1];
    const odd = knocks(4, 2, 4, 2, 4, 2, 4, 2, 4, 2);
    const all = [knocks(...rough), knocks(...rough), knocks(...rough), odd];
    const { heights } = knockHeights(all, [inner, inner, inner, [60, 90]], 133);
    expect(heights[3].height).toBeLessThan(3);
    expect(heights[3].height).toBeGreaterThan(heights[0].height);
    expect(heights[3].spreadDb).toBeGreaterThan(heights[0].spreadDb);
    const random = new SeededRandom(5);
    const noise = Float64Array.from({ length: 240 }, () => 1 + random.normal(0.1));
    expect(knockHeights([noise, noise], [inner, inner], 133).areSeparate).toBe(false);
  });
});

describe("likelyKnock", () => {
  const peaksOf = (course: Float64Array) =>
    Uint8Array.from(course, (_, k) => levelIndex(Math.max(...course.subarray(k, k + PERIOD))));
  // Every third knock is left out.
  const usual = peaksOf(knocks(1, 1, 0, 1, 1, 0, 1, 1, 0, 1));
  const twenty = <T>(one: T) => new Array<T>(20).fill(one);
  const chances = periodPeaks(twenty(usual), twenty([0, 40] as const), twenty([60, 190] as const), PERIOD);
  const likely = (course: Float64Array) => {
    const logs = likelyKnock({
      course,
      peaks: peaksOf(course),
      period: PERIOD,
      chances,
      spreadDb: 0.5,
      from: 1,
      earliest: 20,
      latest: 120,
      to: 180,
      attack: 18,
      logPrior: () => 0,
    });
    const { earliest, middle, latest } = placedKnock(logs, 20, 19, 0.02);
    return [earliest, middle, latest];
  };

  it("is the first knock that is as strong as usual", () => {
    for (const first of [0.9, 1, 1.2]) {
      const [low, middle, high] = likely(knocks(first, 1, 1, 1, 1, 1, 1, 1, 1));
      expect(low).toBeGreaterThanOrEqual(53);
      expect(Math.abs(middle - 60)).toBeLessThanOrEqual(5);
      // Twenty strokes do not show so much silence that a knock in it could be ruled out; two could.
      expect(high).toBeLessThanOrEqual(80);
    }
  });

  it("passes by a knock far below that, and leaves it open where one is just about it", () => {
    const weak = likely(knocks(0.03, 1, 1, 1, 1, 1, 1, 1, 1));
    expect(Math.abs(weak[1] - 75)).toBeLessThanOrEqual(5);
    expect(weak[0]).toBeGreaterThan(65);
    // A quarter of the power is half of the amplitude.
    const [low, , high] = likely(knocks(0.25, 1, 1, 1, 1, 1, 1, 1, 1));
    expect(low).toBeLessThanOrEqual(62);
    expect(high).toBeGreaterThanOrEqual(68);
  });

  it("takes a first knock for the first, though the next one or two are left out", () => {
    const [, middle] = likely(knocks(1, 0, 0, 1, 1, 1, 1, 1, 1));
    expect(middle).toBeLessThanOrEqual(62);
  });
});

describe("likelyKnock after a stroke whose end is not known", () => {
  const peaksOf = (course: Float64Array) =>
    Uint8Array.from(course, (_, k) => levelIndex(Math.max(...course.subarray(k, k + PERIOD))));
  const twenty = <T>(one: T) => new Array<T>(20).fill(one);
  const usual = peaksOf(knocks(...even()));
  const chances = periodPeaks(twenty(usual), twenty([0, 40] as const), twenty([60, 190] as const), PERIOD);

  it("does not take the gap between two strokes for part of a buzz", () => {
    // Knocks of the stroke before at 60 and 75, three periods of silence, the first knock of this one at 135.
    const course = knocks(1, 1, 0, 0, 0, 1, 1, 1, 1, 1);
    const logs = likelyKnock({
      course,
      peaks: peaksOf(course),
      period: PERIOD,
      chances,
      spreadDb: 0.5,
      from: 55,
      earliest: 57,
      latest: 150,
      to: 210,
      attack: 18,
      logPrior: () => 0,
    });
    const { middle, earliest } = placedKnock(logs, 57, 19, 0.02);
    expect(Math.abs(middle - 135)).toBeLessThanOrEqual(5);
    expect(earliest).toBeGreaterThan(120);
  });
});

describe("placedKnock", () => {
  /** Chances at some frames, very little elsewhere. */
  const logsOf = (chances: Readonly<Record<number, number>>) =>
    Array.from({ length: 100 }, (_, i) => Math.log(chances[i] ?? 1e-9));

  it("is the middle of one likely place, known to a frame or two", () => {
    const placed = placedKnock(logsOf({ 39: 0.2, 40: 0.6, 41: 0.2 }), 10, 19, 0.02);
    expect(placed).toMatchObject({ earliest: 49, middle: 50, latest: 51, at: 50 });
    expect(placed.cautiousReach).toBeLessThanOrEqual(2);
  });

  it("is never between two rivals farther apart than the reach, but at the likelier one, and tells of the other", () => {
    const { at, cautiousReach } = placedKnock(logsOf({ 20: 0.6, 70: 0.4 }), 0, 19, 0.02);
    expect(at).toBe(20);
    expect(cautiousReach).toBe(50);
    // Between three, the pair within reach of each other holds more than the likeliest alone.
    const pair = placedKnock(logsOf({ 20: 0.4, 60: 0.3, 70: 0.3 }), 0, 19, 0.02).at;
    expect(pair).toBeGreaterThanOrEqual(51);
    expect(pair).toBeLessThanOrEqual(79);
  });

  it("is well between two rivals that are just within reach of one place, and stays at one that leaves the other little", () => {
    // 30 frames apart with a reach of 19: from 11 to 19 after the first both are within reach, and an error of a frame or two counts.
    const { at } = placedKnock(logsOf({ 20: 0.7, 50: 0.3 }), 0, 19, 0.02);
    expect(at).toBeGreaterThanOrEqual(33);
    expect(at).toBeLessThanOrEqual(37);
    expect(placedKnock(logsOf({ 20: 0.999, 50: 0.001 }), 0, 19, 0.02).at).toBe(20);
  });

  it("tells of a rival of 1 in 1,000, whose chance is the root of that to a cautious mind, and not of 1 in 100,000", () => {
    // Roots: 0.0316 and 0.00316 of about 1; 0.02 may be left out.
    expect(placedKnock(logsOf({ 20: 1, 70: 1e-3 }), 0, 19, 0.02).cautiousReach).toBe(50);
    expect(placedKnock(logsOf({ 20: 1, 70: 1e-5 }), 0, 19, 0.02).cautiousReach).toBeLessThan(19);
  });
});

describe("heardOnsets", () => {
  it("hears the first knock of rows of clicks in noise, whatever was found of the stroke before it", () => {
    const random = new SeededRandom(29);
    const samples = Float32Array.from({ length: 4 * RATE_HZ }, () => random.normal(0.003));
    const first: number[] = [];
    const strokes = Array.from({ length: 12 }, (_, n) => {
      const begin = 0.5 + 0.25 * n + random.uniform(0, 0.01);
      let knock = begin + random.uniform(0, 0.007);
      first.push(knock);
      for (; knock < begin + 0.09; knock += random.uniform(0.006, 0.012)) {
        const size = random.uniform(0.7, 1.3);
        for (let i = 0; i < 0.006 * RATE_HZ; i++) {
          samples[Math.round(knock * RATE_HZ) + i] +=
            0.1 * size * random.normal() * Math.exp((-i / RATE_HZ) * 1000);
        }
      }
      return {
        onsetSeconds: begin + random.normal(0.003),
        withinSeconds: 0.006,
        endSeconds: begin + 0.09,
        addedPower: [1, 1],
        atOnceShare: 0,
      };
    });
    const heard = heardOnsets(memoryRecording([samples], RATE_HZ), BANDS, strokes, 133);
    // A frame of 3 ms, and what the random shape of a knock moves its height by.
    for (const [n, { onsetSeconds, withinSeconds }] of heard.entries()) {
      expect(Math.abs(onsetSeconds - first[n])).toBeLessThan(0.005);
      expect(withinSeconds).toBeLessThan(0.01);
    }
  });
});

describe("the generator's own onsets", () => {
  const onsets = (kind: BuzzKind) =>
    trompetteTake({
      seed: 77,
      frequencyHz: 130.81,
      kind,
      dropCents: 0,
      bowedSeconds: 4,
      strokes: Array.from({ length: 10 }, (_, k) => ({
        onsetSeconds: 1.5 + 0.2335 * k,
        durationSeconds: 0.12,
        strengthDb: 0,
        attackSeconds: 0.005,
        releaseSeconds: 0.01,
      })),
    });

  it("lie within a period after the stroke, or two, where every second one knocks; those of noise are the strokes'", () => {
    for (const [kind, periods] of [
      ["each-period", 1],
      ["second-period", 2],
    ] as const) {
      const { onsetSeconds, strokeSeconds } = onsets(kind);
      const after = onsetSeconds.map((onset, i) => onset - strokeSeconds[i]);
      // Half of the attack early at most, since a ring goes on while the envelope rises; a knock is late by 1 % of a period.
      for (const seconds of after) {
        expect(seconds).toBeGreaterThan(-0.0026);
        expect(seconds).toBeLessThan((1.02 * periods) / 130.81);
      }
      // They come anywhere within it.
      expect(Math.max(...after) - Math.min(...after)).toBeGreaterThan((0.4 * periods) / 130.81);
    }
    const { onsetSeconds, strokeSeconds } = onsets("noise");
    expect(onsetSeconds).toEqual(strokeSeconds);
  });
});
