import { describe, expect, it } from "vitest";
import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { checkRecording } from "../../src/audio/checkRecording.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";
import { findingOf, numberOf } from "./checkedTake.js";
import { noise } from "./syntheticTake.js";

const RATE = 8000;

/** Five seconds of noise with a 200 Hz tone from 1 s to 3 s. */
function channel(amplitude: number, seed: number, seconds = 5): Float32Array {
  const background = noise("white", seconds * RATE, 0.001 * amplitude, seed);
  return Float32Array.from(background, (value, i) => {
    const isOn = i >= RATE && i < 3 * RATE;
    return value + (isOn ? amplitude * Math.sin((2 * Math.PI * 200 * i) / RATE) : 0);
  });
}

function check(channels: Float32Array[], decodingNotes: AudioRecording["decodingNotes"] = []) {
  const recording = { ...memoryRecording(channels, RATE), decodingNotes };
  return checkRecording(recording, surveyRecording(recording), [{ startSeconds: 1, endSeconds: 3 }]);
}

describe("checkRecording: samples", () => {
  it("says nothing but the noise floor of a good take", () => {
    expect(check([channel(0.5, 1)]).findings.map((finding) => finding.code)).toEqual(["noise-floor"]);
    expect(check([channel(0.5, 1), channel(0.4, 2)]).findings.map((finding) => finding.code)).toEqual([
      "noise-floor",
    ]);
  });

  it("reports clipping with count, first time and share", () => {
    const samples = channel(0.5, 1).map((value, i) =>
      i >= 2 * RATE ? Math.max(-1, Math.min(1, 3 * value)) : value,
    );
    const result = check([samples]);
    // One second of 200 Hz, both signs: 400 tops; asin(2/3) to pi - asin(2/3) of each half period is cut: 53.5 %.
    expect(numberOf(result, "clipping", "count")).toBe(400);
    // The first top begins asin(2/3) into the period: 0.58 ms, within a sample.
    expect(numberOf(result, "clipping", "firstSeconds")).toBeCloseTo(2.0006, 3);
    // 20 samples a half period, so cut samples come in whole ones: within 10 %.
    expect(numberOf(result, "clipping", "share")).toBeGreaterThan(0.9 * 0.535 * 0.2);
    expect(numberOf(result, "clipping", "share")).toBeLessThan(1.1 * 0.535 * 0.2);
    expect(numberOf(result, "clipping", "limitDb")).toBeCloseTo(0, 6);
  });

  it("reports an offset above half a per cent of full scale", () => {
    const withOffset = (offset: number) => check([channel(0.5, 1).map((value) => value + offset)]);
    // The noise has a mean of its own, 0.0005 / sqrt(40000): far below the last digit asked for.
    expect(numberOf(withOffset(-0.02), "dc-offset", "offsetPercent")).toBeCloseTo(-2, 2);
    expect(findingOf(withOffset(-0.02), "dc-offset")?.severity).toBe("info");
    expect(findingOf(withOffset(0.004), "dc-offset")).toBeUndefined();
    // The offset must not count as noise: within statistics of the same noise without it.
    expect(withOffset(0.1).noise.levelDb).toBeCloseTo(check([channel(0.5, 1)]).noise.levelDb ?? 0, 3);
  });

  it("reports a take that is too quiet, offset or not", () => {
    const quiet = check([channel(0.005, 1).map((value) => value + 0.2)]);
    // 20 lg 0.005 = -46.0; the noise on top is 60 dB below.
    expect(numberOf(quiet, "too-quiet", "peakDb")).toBeCloseTo(-46.02, 1);
    expect(findingOf(quiet, "too-quiet")?.severity).toBe("warning");
    expect(findingOf(check([channel(0.0005, 1)]), "too-quiet")?.severity).toBe("problem");
    expect(findingOf(check([new Float32Array(5 * RATE)]), "too-quiet")?.severity).toBe("problem");
  });

  it("reports a take that is too short", () => {
    const severity = (seconds: number) =>
      findingOf(check([channel(0.5, 1, 5).subarray(0, seconds * RATE)]), "too-short");
    expect(severity(0.9)?.severity).toBe("problem");
    expect(severity(3.9)?.severity).toBe("warning");
    expect(severity(3.9)?.values.durationSeconds).toBe(3.9);
    expect(severity(4)).toBeUndefined();
  });

  it("reports a dead channel by its number", () => {
    const result = check([channel(0.5, 1), new Float32Array(5 * RATE), channel(0.5, 3)]);
    expect(findingOf(result, "channel-silent")?.values).toEqual({
      channels: "2",
      silentCount: 1,
      channelCount: 3,
    });
    expect(findingOf(result, "channel-difference")).toBeUndefined();
  });

  it("reports channels more than 6 dB apart", () => {
    const result = check([channel(0.1, 1), channel(0.4, 2)]);
    // 20 lg 4; the noise is in the same proportion.
    expect(numberOf(result, "channel-difference", "differenceDb")).toBeCloseTo(12.04, 1);
    expect(findingOf(result, "channel-difference")?.values.louderChannel).toBe(2);
    expect(findingOf(check([channel(0.3, 1), channel(0.4, 2)]), "channel-difference")).toBeUndefined();
  });

  it("reports turned polarity", () => {
    const left = channel(0.5, 1);
    expect(
      numberOf(check([left, left.map((value) => -value)]), "channel-polarity", "correlation"),
    ).toBeCloseTo(-1, 6);
    expect(findingOf(check([left, left]), "channel-polarity")).toBeUndefined();
  });

  it("reports values that can't be sound and goes on", () => {
    const samples = channel(0.5, 1);
    samples.fill(Number.NaN, 4 * RATE, 4 * RATE + 7);
    const result = check([samples]);
    expect(findingOf(result, "not-finite")).toMatchObject({
      severity: "warning",
      values: { count: 7, firstSeconds: 4, share: 7 / (5 * RATE) },
    });
    expect(Number.isFinite(result.noise.levelDb)).toBe(true);
    expect(findingOf(check([samples.fill(Number.NaN)]), "not-finite")?.severity).toBe("problem");
  });

  it("hands on what the decoder had to put up with", () => {
    const result = check(
      [channel(0.5, 1)],
      [
        { code: "wav-truncated", values: { promisedBytes: 9, foundBytes: 7 } },
        { code: "wav-partial-frame", values: { byteCount: 1 } },
        { code: "wav-size-unset", values: { byteOffset: 4 } },
      ],
    );
    expect(findingOf(result, "truncated")).toEqual({
      code: "truncated",
      severity: "warning",
      values: { promisedBytes: 9, foundBytes: 7 },
    });
    expect(findingOf(result, "size-unset")?.values).toEqual({ byteOffset: 4 });
    const partial = check([channel(0.5, 1)], [{ code: "wav-partial-frame", values: { byteCount: 1 } }]);
    expect(findingOf(partial, "truncated")?.severity).toBe("info");
  });
});
