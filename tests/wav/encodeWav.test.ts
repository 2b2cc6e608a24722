import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { thrownBy } from "./thrownBy.js";

const decoded = (bytes: Uint8Array) => openWav(memoryByteSource(bytes));

describe("encodeWav", () => {
  it("writes 16-bit PCM byte for byte", () => {
    // The canonical 44-byte header (Multimedia Programming Interface and Data Specifications 1.0, 1991).
    const bytes = encodeWav([Float32Array.of(0, 0.5, -1), Float32Array.of(2 ** -15, 1, -3)], 44_100, "16");
    expect(Buffer.from(bytes).toString("hex")).toBe(
      "524946463000000057415645" +
        "666d7420100000000100020044ac000010b1020004001000" +
        "646174610c000000000001000040ff7f00800080",
    );
  });

  it.each([
    ["16", 2 ** -16],
    ["24", 2 ** -24],
    ["32f", 0],
  ] as const)("%s comes back within half a step", (format, tolerance) => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 32 }),
        fc.constantFrom(8000, 48_000, 384_000),
        // Up to one step below full scale, where nothing is limited.
        fc.array(fc.float({ min: -1, max: Math.fround(1 - 2 ** -15), noNaN: true }), {
          minLength: 1,
          maxLength: 20,
        }),
        (channelCount, rateHz, samples) => {
          const channels = Array.from({ length: channelCount }, (_, c) =>
            Float32Array.from(samples, (sample) => sample / (c + 1)),
          );
          const recording = decoded(encodeWav(channels, rateHz, format));
          expect(recording).toMatchObject({ channelCount, sampleRateHz: rateHz, frameCount: samples.length });
          expect(recording.decodingNotes).toEqual([]);
          const errors = recording
            .read(0, samples.length)
            .flatMap((channel, c) => [...channel].map((sample, n) => Math.abs(sample - channels[c]![n]!)));
          expect(Math.max(...errors)).toBeLessThanOrEqual(tolerance);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("keeps floating point as it is, beyond full scale and not finite too", () => {
    const samples = Float32Array.of(
      2.5,
      -7,
      Number.NaN,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      1e-40,
    );
    expect(decoded(encodeWav([samples], 48_000, "32f")).read(0, 9)[0]).toEqual(samples);
  });

  it("refuses what it cannot write", () => {
    const one = new Float32Array(4);
    expect(thrownBy(() => encodeWav([], 48_000, "16"))).toEqual({
      code: "value-out-of-range",
      details: { name: "channelCount", given: 0, allowedMinimum: 1, allowedMaximum: 32 },
    });
    expect(thrownBy(() => encodeWav(Array(33).fill(one), 48_000, "16")).code).toBe("value-out-of-range");
    expect(thrownBy(() => encodeWav([one], 44_100.5, "16"))).toEqual({
      code: "value-out-of-range",
      details: { name: "sampleRateHz", given: 44_100.5, allowedMinimum: 8000, allowedMaximum: 384_000 },
    });
    expect(thrownBy(() => encodeWav([one, new Float32Array(3)], 48_000, "24"))).toEqual({
      code: "value-out-of-range",
      details: { name: "channel.length", given: 3, allowedMinimum: 4, allowedMaximum: 4 },
    });
    expect(thrownBy(() => encodeWav([new Float32Array(0)], 48_000, "16")).code).toBe("recording-empty");
    expect(thrownBy(() => encodeWav([Float32Array.of(0, Number.NaN, Infinity)], 48_000, "24"))).toEqual({
      code: "recording-not-finite",
      details: { nonFiniteCount: 2 },
    });
  });
});
