import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { bowedTake, NOTE_HZ, recordingOf, stringNamed } from "./bowedTake.js";

const targets = stringTargets(findTuning("alto-three"), { a4Hz: 440 });
const take = bowedTake([{ frequencyHz: NOTE_HZ.C2 }, { frequencyHz: NOTE_HZ.G3 }], {
  sampleRateHz: 8000,
  seed: 81,
});
const read = (lowEdgeHz?: number) =>
  measureTake(recordingOf(take), { targets, a4Hz: 440, ...(lowEdgeHz !== undefined && { lowEdgeHz }) });

/** 10 lg of the power below an edge over that from it on, from the partials' printed levels. */
function ratioDb(name: string, reading: ReturnType<typeof read>, edgeHz: number): number {
  const sum = (of: (hz: number) => boolean) =>
    stringNamed(reading, name).partials.reduce(
      (all, { frequencyHz, levelDb }) =>
        levelDb !== null && frequencyHz < 2818.38 && of(frequencyHz) ? all + 10 ** (levelDb / 10) : all,
      0,
    );
  return 10 * Math.log10(sum((hz) => hz < edgeHz) / sum((hz) => hz >= edgeHz));
}

describe("the edge of the low register", () => {
  it("is 177.8 Hz unless it is moved, for every string and for the take", () => {
    for (const [given, edgeHz] of [
      [undefined, 177.828],
      [250, 250],
    ] as const) {
      const reading = read(given);
      expect(stringNamed(reading, "C2").lowRegisterDb).toBeCloseTo(ratioDb("C2", reading, edgeHz), 9);
    }
    expect(read(250).lowRegister!.lowRegisterDb!).toBeGreaterThan(read().lowRegister!.lowRegisterDb! + 0.5);
  });

  it("leaves a string without a partial below it without a number", () => {
    expect(stringNamed(read(), "G3").lowRegisterDb).toBeNull();
    expect(stringNamed(read(200), "G3").lowRegisterDb).not.toBeNull();
    expect(stringNamed(read(60), "C2").lowRegisterDb).toBeNull();
  });

  it.each([0, 44, 2819, Number.NaN])("of %d Hz is refused", (lowEdgeHz) => {
    expect(() => read(lowEdgeHz)).toThrow(AnalysisError);
    expect(() => read(lowEdgeHz)).toThrow("value-out-of-range");
  });
});
