import { describe, expect, it } from "vitest";
import type { KeyNote } from "../../src/keyboard/hearNotes.js";
import { keySound } from "../../src/keyboard/keySound.js";

/** A steady note of 0.3 s. */
const note = (key: number, harmonicToNoiseDb: number): KeyNote => ({
  key,
  note: {
    startSeconds: key,
    endSeconds: key + 0.3,
    frequencyHz: 392 * 2 ** (key / 12),
    course: { centSeconds: new Float64Array(31), hopSeconds: 0.01 },
    noiseErrorCents: 0.1,
    harmonicToNoiseDb,
    otherLine: null,
    holdsTogether: null,
    partials: [],
  },
});

const harsh = (others: number, one: number) => {
  const notes = [1, 2, 3, 4, 5].map((key) => note(key, key === 3 ? one : others));
  return keySound(notes, [1, 2, 3, 4, 5]).flatMap(({ isHarsh }, i) => (isHarsh ? [i + 1] : []));
};

describe("keySound", () => {
  it("calls a key harsh that stands well below the others, or hardly above its noise", () => {
    expect(harsh(25, 16)).toEqual([3]);
    expect(harsh(25, 18)).toEqual([]);
    expect(harsh(10, 5)).toEqual([3]);
  });

  it("calls no key harsh whose noise is a thousandth, however clear the others are", () => {
    // A key struck twice on an otherwise clean string: 41 dB among 72.
    expect(harsh(72, 41)).toEqual([]);
    expect(harsh(72, 25)).toEqual([3]);
  });

  it("asks for more where keys differ anyway, as over a barking trompette", () => {
    const notes = [20, 25, 15, 22, 10, 18].map((ratio, i) => note(i + 1, ratio));
    const isHarsh = keySound(notes, [1, 2, 3, 4, 5, 6]).map((one) => one.isHarsh);
    // Median 19, half of them within 3.5 of it: the limit of 5 lies below 6, hardly above its noise.
    expect(isHarsh).toEqual([false, false, false, false, false, false]);
  });

  it("measures a key's unsteadiness about its own mean, over all its notes", () => {
    const again = note(1, 25);
    const sharper = {
      ...again,
      note: { ...again.note, frequencyHz: again.note.frequencyHz * 2 ** (8 / 1200) },
    };
    const [first, second] = keySound([again, sharper, note(2, 25)], [1, 2]);
    expect(first.unsteadinessCents).toBeCloseTo(4, 3);
    expect(second.unsteadinessCents).toBeCloseTo(0, 6);
  });
});
