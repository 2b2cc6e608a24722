import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findPauses } from "../../src/audio/findPauses.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { surveyRecording } from "../../src/audio/surveyRecording.js";

const RATE = 8000;

function surveyOf(seconds: number, notFiniteAtSeconds?: number) {
  const samples = new Float32Array(seconds * RATE);
  if (notFiniteAtSeconds !== undefined) samples[notFiniteAtSeconds * RATE] = Number.NaN;
  return surveyRecording(memoryRecording([samples], RATE));
}

describe("findPauses", () => {
  it("leaves 0.3 s after a note, 0.1 s before one and 0.1 s at the ends", () => {
    const pauses = findPauses(surveyOf(10), [
      { startSeconds: 5, endSeconds: 7 },
      { startSeconds: 1, endSeconds: 3 },
    ]);
    expect(pauses.map((pause) => pause.afterNote)).toEqual([false, true, true]);
    const expected = [0.1, 0.9, 3.3, 4.9, 7.3, 9.9];
    for (const [i, seconds] of pauses.flatMap((p) => [p.startSeconds, p.endSeconds]).entries()) {
      expect(seconds).toBeCloseTo(expected[i], 9);
    }
  });

  it("drops pauses below 0.3 s", () => {
    const gap = (seconds: number) =>
      findPauses(surveyOf(10), [
        { startSeconds: 0, endSeconds: 4 },
        { startSeconds: 4 + seconds, endSeconds: 10 },
      ]).length;
    expect(gap(0.69)).toBe(0);
    expect(gap(0.71)).toBe(1);
  });

  it("keeps clear of values that can't be sound", () => {
    const pauses = findPauses(surveyOf(4, 2), []);
    expect(pauses).toHaveLength(2);
    expect(pauses[0].endSeconds).toBeCloseTo(2, 9);
    expect(pauses[1].startSeconds).toBeCloseTo(2.01, 9);
  });

  it("never overlaps a note, whatever the notes", () => {
    const note = fc
      .tuple(fc.double({ min: -1, max: 11, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true }))
      .map(([startSeconds, length]) => ({ startSeconds, endSeconds: startSeconds + length }));
    const survey = surveyOf(10);
    fc.assert(
      fc.property(fc.array(note, { maxLength: 8 }), (notes) => {
        for (const pause of findPauses(survey, notes)) {
          expect(pause.endSeconds - pause.startSeconds).toBeGreaterThanOrEqual(0.3);
          expect(pause.startSeconds).toBeGreaterThanOrEqual(0.1);
          expect(pause.endSeconds).toBeLessThanOrEqual(9.9);
          for (const { startSeconds, endSeconds } of notes) {
            expect(pause.endSeconds <= startSeconds || pause.startSeconds >= endSeconds).toBe(true);
          }
        }
      }),
    );
  });
});
