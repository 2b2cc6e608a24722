import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { AnalysisError } from "../../src/errors.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";

const targets = stringTargets(findTuning("soprano"), {});
const RATE_HZ = 8000;
/** Values that arithmetic trips over, besides any other. */
const value = fc.oneof(
  fc.constantFrom(0, -0, 1, -1, Number.NaN, Number.POSITIVE_INFINITY, 3.4e38, -3.4e38, 1e-45),
  fc.float(),
);

/** Any samples, as blocks that repeat: what repeats has a pitch. */
const samples = fc
  .array(fc.tuple(fc.array(value, { minLength: 1, maxLength: 200 }), fc.integer({ min: 1, max: 120 })), {
    minLength: 1,
    maxLength: 6,
  })
  .map((blocks) =>
    Float32Array.from(
      blocks.flatMap(([block, times]) => Array.from({ length: times }, () => block).flat()).slice(0, 32_768),
    ),
  );

describe("any samples at all", () => {
  it("are read, or refused with a reason; what comes out is numbers or null, within what they can be", () => {
    let read = 0;
    fc.assert(
      fc.property(samples, (one) => {
        try {
          const reading = measureTake(memoryRecording([one], RATE_HZ), { targets, a4Hz: 440 });
          read++;
          for (const { frequencyHz, deviationCents, levelDb, interval95Cents } of reading.strings) {
            if (frequencyHz !== null) expect(frequencyHz).toBeGreaterThan(20);
            if (frequencyHz !== null) expect(frequencyHz).toBeLessThan(RATE_HZ / 2);
            if (deviationCents !== null) expect(Number.isFinite(deviationCents)).toBe(true);
            if (levelDb !== null) expect(Number.isFinite(levelDb)).toBe(true);
            if (interval95Cents !== null) expect(interval95Cents[0]).toBeLessThanOrEqual(interval95Cents[1]);
          }
        } catch (error) {
          if (!(error instanceof AnalysisError)) throw error;
        }
      }),
      { numRuns: 300 },
    );
    expect(read).toBeGreaterThan(5);
  });
});
