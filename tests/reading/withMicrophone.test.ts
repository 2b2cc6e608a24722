import { describe, expect, it } from "vitest";
import { microphoneDb } from "../../src/body/microphoneDb.js";
import { readMicrophoneResponse } from "../../src/body/readMicrophoneResponse.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { withMicrophone } from "../../src/reading/withMicrophone.js";
import { bodyAmplitudes } from "../../src/synthesis/bodyAmplitudes.js";
import { bowedTake, NOTE_HZ, recordingOf } from "./bowedTake.js";

const targets = stringTargets(findTuning("alto-three"), { a4Hz: 440 });
/** An invented microphone: 9 dB down at 60 Hz, 2 dB up at 2 kHz. */
const response = readMicrophoneResponse("60 -9\n120 -3\n250 0\n2000 2\n3000 0");
const body = [{ frequencyHz: 120, q: 8, gainDb: 6 }];
const NOTES = [NOTE_HZ.C2, NOTE_HZ.G2, NOTE_HZ.G3];

/** The same strings, recorded straight or through that microphone: each partial's amplitude changed by its response. */
function takeThrough(levelDb: (hz: number) => number) {
  const notes = NOTES.map((frequencyHz, i) => ({
    frequencyHz,
    seed: 500 + i,
    partialAmplitudes: bodyAmplitudes(frequencyHz, 60, 0.1, body, 100).map(
      (amplitude, n) => amplitude * 10 ** (levelDb((n + 1) * frequencyHz) / 20),
    ),
  }));
  return measureTake(recordingOf(bowedTake(notes, { sampleRateHz: 8000, seed: 91, noiseDb: -95 })), {
    targets,
    a4Hz: 440,
  });
}

describe("withMicrophone", () => {
  const straight = takeThrough(() => 0);
  const coloured = takeThrough((hz) => microphoneDb(response, hz));
  const mended = withMicrophone(coloured, response);

  it("gives what a microphone without a response of its own would have given", () => {
    // The colour is large: without it taken off, the low part reads 3 dB and more too small.
    expect(straight.lowRegister!.lowRegisterDb! - coloured.lowRegister!.lowRegisterDb!).toBeGreaterThan(3);
    // Levels of partials are read within 0.03 dB; a few of the highest come out of the noise in one and not the other.
    expect(Math.abs(mended.lowRegister!.lowRegisterDb! - straight.lowRegister!.lowRegisterDb!)).toBeLessThan(
      0.05,
    );
    for (const [i, string] of straight.strings.entries()) {
      const same = mended.strings[i];
      expect(same.status).toBe(string.status);
      expect(same.frequencyHz).toBe(coloured.strings[i].frequencyHz);
      if (string.levelDb === null) continue;
      expect(Math.abs(same.levelDb! - string.levelDb)).toBeLessThan(0.05);
      expect(Math.abs(same.centroidHz! - string.centroidHz!)).toBeLessThan(0.01 * string.centroidHz!);
      for (const n of [0, 1, 2, 5]) {
        expect(Math.abs(same.partials[n].levelDb! - string.partials[n].levelDb!)).toBeLessThan(0.05);
      }
    }
  });

  it("changes nothing where the response is flat", () => {
    const flat = readMicrophoneResponse("20 0\n5000 0");
    const same = withMicrophone(straight, flat);
    expect(same.lowRegister!.lowRegisterDb).toBeCloseTo(straight.lowRegister!.lowRegisterDb!, 9);
    for (const [i, { lowRegisterDb, levelDb }] of straight.strings.entries()) {
      if (levelDb !== null) expect(same.strings[i].levelDb).toBeCloseTo(levelDb, 9);
      if (lowRegisterDb !== null) expect(same.strings[i].lowRegisterDb).toBeCloseTo(lowRegisterDb, 9);
    }
  });
});
