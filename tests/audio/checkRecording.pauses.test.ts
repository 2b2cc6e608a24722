import { describe, expect, it } from "vitest";
import { checkRecording } from "../../src/audio/checkRecording.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { checkedTake, findingOf, numberOf, planNoise, type TakePlan, threeNotes } from "./checkedTake.js";
import { addSine, highPassed, noise, quantised } from "./syntheticTake.js";

describe("checkRecording: noise floor", () => {
  for (const [rateHz, pauseSeconds] of [
    [8000, 0.8],
    [16000, 2.5],
    [44100, 1.2],
    [96000, 1.2],
  ]) {
    it(`measures white noise in pauses of ${pauseSeconds} s at ${rateHz} Hz`, () => {
      const plan = threeNotes(rateHz, pauseSeconds, 98, 0.1);
      const { noise: found, ...result } = checkedTake(plan, planNoise(plan, "white", -60, 1));
      // White noise spreads evenly up to half the rate; a full-scale sine has power 0.5.
      const truth = -60 + 10 * Math.log10((2818.38 - 44.67) / (rateHz / 2) / 0.5);
      // 0.4 s pauses and 2.8 kHz: sd 4.34 / sqrt(B T), below 0.1 dB; 0.5 dB asked for.
      expect(Math.abs((found.levelDb ?? 0) - truth)).toBeLessThan(0.5);
      // Partials 1/n of amplitude 0.1 (at most 20, below 3 kHz), the mean power of three notes.
      const power = plan.notes.map(({ frequencyHz }) => {
        let sum = 0;
        for (let n = 1; n <= 20 && n * frequencyHz < 2818.38; n++) sum += 0.01 / n ** 2;
        return sum;
      });
      const noteDb = 10 * Math.log10(power.reduce((a, b) => a + b, 0) / 3);
      expect(Math.abs((found.noteLevelDb ?? 0) - noteDb)).toBeLessThan(0.5);
      expect(found.noteToNoiseDb).toBeCloseTo((found.noteLevelDb ?? 0) - (found.levelDb ?? 0), 9);
      expect(result.findings.find((finding) => finding.code === "noise-floor")?.severity).toBe("info");
    });
  }

  it("warns where the notes stand less than 30 dB above", () => {
    const plan = threeNotes(8000, 1.5);
    const near = checkedTake(plan, planNoise(plan, "white", -43, 2));
    expect(findingOf(near, "noise-floor")?.severity).toBe("warning");
    expect(numberOf(near, "noise-floor", "noteToNoiseDb")).toBeLessThan(30);
  });

  it("is not raised by a knock in one pause", () => {
    const plan = threeNotes(8000, 2.5, 98, 0.1);
    const background = planNoise(plan, "white", -60, 3);
    const quiet = checkedTake(plan, background.slice()).noise.levelDb ?? 0;
    for (let i = 0; i < 200; i++) background[11000 + i] += 0.2 * Math.exp(-i / 40) * Math.sin(i);
    expect(Math.abs((checkedTake(plan, background).noise.levelDb ?? 0) - quiet)).toBeLessThan(0.5);
  });

  it("says what can't be known without pauses, and in digital silence", () => {
    const recording = memoryRecording([quantised(noise("white", 40000, 0.1, 1), 16)], 8000);
    const survey = surveyRecording(recording);
    const open = checkRecording(recording, survey, [{ startSeconds: 0, endSeconds: 5 }]);
    expect(open.findings.map(({ code }) => code)).toEqual([
      "noise-unknown",
      "high-pass-open",
      "gain-control-open",
    ]);
    expect(open.noise).toMatchObject({ pauseSeconds: 0, levelDb: null, noteToNoiseDb: null });
    const plan = threeNotes(8000, 1.5, 98, 0.1);
    const silent = checkedTake(plan, new Float64Array(plan.lengthSeconds * 8000), 16);
    expect(findingOf(silent, "noise-unknown")?.values.reason).toBe("silence");
    expect(findingOf(silent, "high-pass-open")?.values.reason).toBe("silence");
    expect(findingOf(silent, "gain-control-open")).toBeDefined();
    expect(silent.noise.levelDb).toBeNull();
  });
});

describe("checkRecording: mains hum", () => {
  const HARMONICS = [1, 2, 3, 5, 7, 10, 14, 21];

  function humTake(plan: TakePlan, fundamentalHz: number, humDb: number, seed: number) {
    const background = planNoise(plan, (["white", "pink", "brown"] as const)[seed % 3], -70, seed);
    let power = 0;
    for (const h of HARMONICS) {
      const amplitude = 10 ** (humDb / 20) * h ** -0.7;
      power += amplitude ** 2;
      addSine(background, plan.rateHz, h * fundamentalHz, amplitude);
    }
    return { result: checkedTake(plan, background), levelDb: 10 * Math.log10(power) };
  }

  for (const [fundamentalHz, humHz] of [
    [50, 50],
    [50.15, 50],
    [49.85, 50],
    [60.02, 60],
    [59.9, 60],
  ]) {
    it(`finds hum at ${fundamentalHz} Hz beside strings on G2, D3 and G3`, () => {
      for (const [seed, pauseSeconds] of [1.1, 1.6, 2.5, 3].entries()) {
        const { result, levelDb } = humTake(
          threeNotes(seed % 2 ? 44100 : 8000, pauseSeconds, 98, 0.5),
          fundamentalHz,
          -50,
          seed,
        );
        expect(numberOf(result, "mains-hum", "humHz")).toBe(humHz);
        expect(Math.abs(numberOf(result, "mains-hum", "levelDb") - levelDb)).toBeLessThan(0.5);
        expect(numberOf(result, "mains-hum", "lineCount")).toBe(HARMONICS.length);
        for (const [k, frequencyHz] of result.humFrequenciesHz.entries()) {
          // The lines stand 20 dB and more out of bins of 0.5 to 2 Hz: a few hundredths of a bin.
          expect(Math.abs(frequencyHz - HARMONICS[k] * fundamentalHz)).toBeLessThan(0.1);
        }
        expect(numberOf(result, "mains-hum", "strongestHz")).toBeCloseTo(fundamentalHz, 1);
        expect(findingOf(result, "high-pass")).toBeUndefined();
      }
    });
  }

  it("makes little of hum 50 dB below the notes", () => {
    const plan = threeNotes(8000, 2.5, 98, 0.1);
    expect(findingOf(humTake(plan, 50, -85, 2).result, "mains-hum")?.severity ?? "info").toBe("info");
    expect(findingOf(humTake(plan, 50, -50, 2).result, "mains-hum")?.severity).toBe("warning");
  });

  it("does not take a string that rings on at a multiple of 50 or 60 Hz for hum", () => {
    for (const baseHz of [49.9, 60, 100, 150]) {
      for (const decay60Seconds of [2, 8]) {
        const plan = threeNotes(8000, 2.5, baseHz, decay60Seconds);
        const result = checkedTake(plan, planNoise(plan, "white", -75, 5));
        expect({ baseHz, decay60Seconds, hum: result.humFrequenciesHz }).toEqual({
          baseHz,
          decay60Seconds,
          hum: [],
        });
      }
    }
  });

  it("does not take steady lines elsewhere for hum", () => {
    for (const frequencyHz of [47, 55, 98, 65.4, 110, 1234]) {
      const plan = threeNotes(8000, 2.5, 98, 0.1);
      const background = planNoise(plan, "pink", -70, 6);
      for (const h of [1, 2, 3]) addSine(background, 8000, h * frequencyHz, 0.003 / h);
      expect(checkedTake(plan, background).humFrequenciesHz).toEqual([]);
    }
  });
});

describe("checkRecording: high-pass", () => {
  const CASES = (["white", "pink"] as const).flatMap((colour) =>
    [100, 150, 200, 300].flatMap((cutoffHz) => [4, 6].map((order) => ({ colour, cutoffHz, order }))),
  );
  for (const { colour, cutoffHz, order } of CASES) {
    it(`finds a ${cutoffHz} Hz high-pass of order ${order} in ${colour} noise`, () => {
      const plan = threeNotes(8000, 2.5, 98, 0.3);
      const filtered = highPassed(planNoise(plan, colour, -60, cutoffHz + order), 8000, cutoffHz, order);
      const result = checkedTake(plan, filtered);
      const found = numberOf(result, "high-pass", "cutoffHz");
      // A third of an octave is what was asked for: bands are that wide and the noise scatters.
      expect(Math.abs(Math.log2(found / cutoffHz))).toBeLessThan(1 / 3);
      // 6.02 dB per octave and order (Butterworth); the fit knows it to about a third.
      expect(numberOf(result, "high-pass", "slopeDbPerOctave") / (6.02 * order)).toBeGreaterThan(0.6);
      expect(numberOf(result, "high-pass", "slopeDbPerOctave") / (6.02 * order)).toBeLessThan(1.5);
    });
  }

  it("finds it with a floor of other noise below and hum in it", () => {
    const plan = threeNotes(16000, 2.5, 98, 0.3);
    const filtered = highPassed(planNoise(plan, "white", -55, 9), 16000, 150, 4);
    const floor = planNoise(plan, "white", -80, 10);
    for (const h of [1, 2, 3, 5]) addSine(filtered, 16000, h * 50, 0.003);
    const result = checkedTake(
      plan,
      filtered.map((value, i) => value + floor[i]),
    );
    expect(Math.abs(Math.log2(numberOf(result, "high-pass", "cutoffHz") / 150))).toBeLessThan(1 / 3);
    expect(numberOf(result, "mains-hum", "humHz")).toBe(50);
  });

  it("does not call the gentle roll-off of a microphone a high-pass", () => {
    const plan = threeNotes(8000, 2.5, 98, 0.3);
    const white = planNoise(plan, "white", -60, 11);
    // One pole at 80 Hz, 6 dB per octave.
    const a = Math.exp((-2 * Math.PI * 80) / 8000);
    const rolled = new Float64Array(white.length);
    for (let i = 1; i < white.length; i++) rolled[i] = a * (rolled[i - 1] + white[i] - white[i - 1]);
    expect(findingOf(checkedTake(plan, rolled), "high-pass")).toBeUndefined();
  });

  it("leaves it open where the format's own noise hides a high-pass, or pauses are short", () => {
    const plan = threeNotes(8000, 2.5, 98, 0.1);
    const hidden = checkedTake(plan, highPassed(planNoise(plan, "white", -88, 12), 8000, 150, 4), 16);
    expect(findingOf(hidden, "high-pass-open")?.values.reason).toBe("quantisation");
    const short = threeNotes(8000, 0.75, 98, 0.1);
    const result = checkedTake(short, planNoise(short, "white", -60, 13));
    expect(findingOf(result, "high-pass-open")?.values.reason).toBe("short-pauses");
  });
});

describe("checkRecording: gain control", () => {
  /** Gain 0 dB in notes, rising at once after each by `riseDb` in `rampSeconds`. */
  function gained(
    plan: TakePlan,
    background: Float64Array,
    riseDb: number,
    rampSeconds: number,
  ): Float64Array {
    return background.map((value, i) => {
      const seconds = i / plan.rateHz;
      const last = plan.notes.filter((note) => note.startSeconds <= seconds).at(-1);
      const since = last === undefined ? rampSeconds : Math.max(0, seconds - last.endSeconds);
      return value * 10 ** ((riseDb * Math.min(1, since / rampSeconds)) / 20);
    });
  }

  for (const [riseDb, rampSeconds] of [
    [12, 1],
    [15, 2],
    [25, 2],
  ]) {
    it(`finds noise that rises by ${riseDb} dB in ${rampSeconds} s`, () => {
      for (const [seed, colour] of (["white", "pink", "brown"] as const).entries()) {
        const plan = threeNotes(16000, 2.5, 98, 0.1);
        const result = checkedTake(
          plan,
          gained(plan, planNoise(plan, colour, -75, seed), riseDb, rampSeconds),
        );
        // The first 0.3 s after a note are left out; 2 dB asked for (50 ms blocks at either end are not the ends).
        const truth = riseDb * (1 - 0.3 / rampSeconds);
        expect(Math.abs(numberOf(result, "gain-control", "riseDb") - truth)).toBeLessThan(2);
        const middle = 0.8 * (rampSeconds - 0.3);
        expect(Math.abs(numberOf(result, "gain-control", "seconds") - middle)).toBeLessThan(0.3);
        expect(numberOf(result, "gain-control", "pauseCount")).toBe(3);
      }
    });
  }

  it("does not fire on a noise that sets in, on one pause of three, or where the noise is steady", () => {
    const plan = threeNotes(8000, 2.5, 98, 0.1);
    const background = planNoise(plan, "white", -70, 4);
    expect(findingOf(checkedTake(plan, background.slice()), "gain-control")).toBeUndefined();
    const sudden = background.map((value, i) => {
      const isLate = plan.notes.some(
        ({ endSeconds }) => i / 8000 > endSeconds + 1.5 && i / 8000 < endSeconds + 2.5,
      );
      return isLate ? 6 * value : value;
    });
    expect(findingOf(checkedTake(plan, sudden), "gain-control")).toBeUndefined();
    const once = gained({ ...plan, notes: plan.notes.slice(2) }, background, 15, 2);
    const flat = once.map((value, i) => (i / 8000 < plan.notes[2].startSeconds ? background[i] : value));
    expect(findingOf(checkedTake(plan, flat), "gain-control")).toBeUndefined();
  });

  it("stays open with short pauses", () => {
    const plan = threeNotes(8000, 1, 98, 0.1);
    expect(findingOf(checkedTake(plan, planNoise(plan, "white", -70, 4)), "gain-control-open")).toBeDefined();
  });
});
