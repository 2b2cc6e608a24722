import { describe, expect, it } from "vitest";
import type { KeyNote } from "../../src/keyboard/hearNotes.js";
import { pitchesOfKeys } from "../../src/keyboard/pitchesOfKeys.js";

const note = (key: number, seconds: number) =>
  ({ key, note: { startSeconds: 1, endSeconds: 1 + seconds } }) as KeyNote;
const pitches = (means: number[], variance: number) => ({
  means: Float64Array.from(means),
  covariance: Float64Array.from({ length: means.length ** 2 }, (_, i) =>
    i % (means.length + 1) === 0 ? variance : 0,
  ),
  variance: 1,
  likelihood: 0,
});

describe("pitchesOfKeys", () => {
  it("puts a key's notes together by their lengths", () => {
    const { means, covariance } = pitchesOfKeys(
      pitches([10, 100, 13], 9),
      [note(1, 0.5), note(2, 1), note(1, 1)],
      [1, 2],
    );
    expect(means[0]).toBeCloseTo(12, 9);
    expect(means[1]).toBe(100);
    // (1/9 + 4/9) * 9; 3 cents between the notes are no more than their own movement explains.
    expect(covariance[0]).toBeCloseTo(5, 9);
    expect(covariance[3]).toBeCloseTo(9, 9);
    expect(covariance[1]).toBe(0);
  });

  it("is less sure of a key that came out differently the second time", () => {
    const { covariance } = pitchesOfKeys(pitches([0, 8], 0.02), [note(3, 1), note(3, 1)], [3]);
    // Half of the notes' variance (32) over their number, and what each moves by itself.
    expect(covariance[0]).toBeCloseTo(0.01 + (32 - 0.02) / 2, 9);
  });
});
