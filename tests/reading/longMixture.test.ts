import { describe, expect, it } from "vitest";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { cents } from "../../src/units/cents.js";
import { bowedTake, codesOf, NOTE_HZ, realisedHz, recordingOf, stringNamed } from "./bowedTake.js";

/** Long enough to be read in three pieces of at most 60 s, each of them in two parts of at most 30 s. */
const SECONDS = 140;
const targets = stringTargets(findTuning("alto-three"), { a4Hz: 440 });

describe("three strings that sound together for longer than one piece", () => {
  const notes = [
    { frequencyHz: NOTE_HZ.C2 * 1.003, durationSeconds: SECONDS },
    { frequencyHz: NOTE_HZ.G2, durationSeconds: SECONDS },
    { frequencyHz: NOTE_HZ.D4 * 0.998, durationSeconds: SECONDS },
  ];
  const take = bowedTake([{ ...notes[0], together: notes.slice(1) }], { sampleRateHz: 8000, seed: 61 });
  const reading = measureTake(recordingOf(take), { targets, a4Hz: 440 });

  it("are read in every piece, each over what was read of it", () => {
    for (const [i, name] of ["C2", "G2", "D4"].entries()) {
      const string = stringNamed(reading, name);
      expect(string.status).toBe("measured");
      const seconds = string.perPassage.reduce((sum, one) => sum + one.endSeconds - one.startSeconds, 0);
      // Between pieces and at the ends about half a second each is left out.
      expect(seconds, name).toBeGreaterThan(SECONDS - 6);
      expect(string.perPassage.length, name).toBeGreaterThanOrEqual(5);
      for (const passage of string.perPassage) {
        expect(passage.endSeconds - passage.startSeconds).toBeLessThanOrEqual(30);
        const error = cents(passage.frequencyHz, realisedHz(take.placed[i], passage));
        // As short mixtures are read: 0.03 cents at worst in hundreds of them.
        expect(Math.abs(error), `${name} from ${passage.startSeconds} s`).toBeLessThan(0.05);
      }
    }
  });

  it("are not taken for others, and leave nothing unread", () => {
    expect(reading.strings.filter(({ status }) => status === "measured").map(({ name }) => name)).toEqual([
      "C2",
      "G2",
      "D4",
    ]);
    expect(codesOf(reading.findings)).not.toContain("unread-stretch");
  });
});
