import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import type { MeasureOptions } from "../../src/reading/MeasureOptions.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { takeReference } from "../../src/reading/takeReference.js";
import type { PairReading, StringReading } from "../../src/strings/StringReading.js";
import { handMadeString } from "../report/handMade.js";
import { movedHz } from "../strings/handMadePassage.js";
import { bowedTake, codesOf, NOTE_HZ, recordingOf, stringNamed } from "./bowedTake.js";

const { C2, C3, G3 } = NOTE_HZ;
const targets = stringTargets(findTuning("alto-three"), { tonic: "C" });
const G2 = targets.find(({ name }) => name === "G2")!.targetHz;

/** A string off by so much, sure to the given half width. */
function off(name: string, deviationCents: number, half = 0.3): StringReading {
  return handMadeString({
    name,
    deviationCents,
    interval95Cents: [deviationCents - half, deviationCents + half],
    ownErrorCents: null,
  });
}

function notHeard(name: string, status: "not-heard" | "unresolved" = "not-heard"): StringReading {
  return handMadeString({
    name,
    status,
    frequencyHz: null,
    deviationCents: null,
    interval95Cents: null,
    ownErrorCents: null,
  });
}

describe("takeReference with an anchor", () => {
  const strings = [off("C2", 2.5, 0.3), off("G2", -7, 0.4), off("C3", 4), notHeard("G3")];

  it("takes the reference pitch from the anchor, with its interval", () => {
    const { referencePitch, findings } = takeReference(strings, [], { anchor: "G2", a4Hz: 440 });
    // 440 * 2^(-7/1200) = 438.2245 Hz.
    expect(referencePitch?.a4Hz).toBeCloseTo(438.2245, 4);
    expect(referencePitch).toMatchObject({ offsetCents: -7, interval95Cents: [-7.4, -6.6], anchor: "G2" });
    expect(findings).toEqual([]);
  });

  it("counts every string from it; the half widths add as squares", () => {
    const read = takeReference(strings, [], { anchor: "G2", a4Hz: 440 }).strings;
    expect(read.map(({ ownErrorCents }) => ownErrorCents)).toEqual([9.5, 0, 11, null]);
    // 0.3 and 0.4 make 0.5.
    expect(read[0]!.ownErrorInterval95Cents?.[0]).toBeCloseTo(9, 9);
    expect(read[0]!.ownErrorInterval95Cents?.[1]).toBeCloseTo(10, 9);
    expect(read[1]!.ownErrorInterval95Cents).toEqual([0, 0]);
    expect(read[3]!.ownErrorInterval95Cents).toBeNull();
  });

  it("has no interval where one of the two has none", () => {
    const open = [strings[0]!, { ...strings[1]!, interval95Cents: null }];
    const { strings: read, referencePitch } = takeReference(open, [], { anchor: "G2", a4Hz: 440 });
    expect(read[0]).toMatchObject({ ownErrorCents: 9.5, ownErrorInterval95Cents: null });
    expect(referencePitch?.interval95Cents).toBeNull();
  });

  it("takes the interval of the pair where the two sounded together, whichever is the upper one", () => {
    const pair: PairReading = {
      lower: "C2",
      upper: "G2",
      ratio: "3:2",
      basis: "measured",
      centsFromPure: -9.5,
      interval95Cents: [-9.6, -9.3],
      beatsPerSecond: 1.08,
    };
    const fromUpper = takeReference(strings, [pair], { anchor: "G2", a4Hz: 440 }).strings[0]!;
    // G2 - C2 is -9.5 between -9.6 and -9.3, so C2 - G2 is 9.5 between 9.3 and 9.6.
    expect(fromUpper.ownErrorInterval95Cents?.[0]).toBeCloseTo(9.3, 9);
    expect(fromUpper.ownErrorInterval95Cents?.[1]).toBeCloseTo(9.6, 9);
    const fromLower = takeReference(strings, [pair], { anchor: "C2", a4Hz: 440 }).strings[1]!;
    expect(fromLower.ownErrorInterval95Cents?.[0]).toBeCloseTo(-9.6, 9);
    expect(fromLower.ownErrorInterval95Cents?.[1]).toBeCloseTo(-9.3, 9);
    // What was worked out from each alone says no more than the two readings; nor does one passage of several.
    const alone = takeReference(strings, [{ ...pair, basis: "in-turn" }], { anchor: "G2", a4Hz: 440 });
    expect(alone.strings[0]!.ownErrorInterval95Cents?.[0]).toBeCloseTo(9, 9);
    const [passage] = strings[0]!.perPassage;
    const twice = [{ ...strings[0]!, perPassage: [passage!, passage!] }, strings[1]!];
    const several = takeReference(twice, [pair], { anchor: "G2", a4Hz: 440 });
    expect(several.strings[0]!.ownErrorInterval95Cents?.[0]).toBeCloseTo(9, 9);
  });

  it("falls back on what the strings have in common where the anchor was not read, and says so", () => {
    for (const reason of ["not-heard", "unresolved"] as const) {
      const take = [off("C2", 2), off("G2", 3), off("C3", 7), notHeard("G3", reason)];
      const read = takeReference(take, [], { anchor: "G3", a4Hz: 440 });
      expect(read.findings).toEqual([
        { code: "anchor-not-heard", severity: "warning", values: { string: "G3", reason } },
      ]);
      expect(read.referencePitch).toMatchObject({ offsetCents: 3, anchor: null });
      expect({ ...read, findings: [] }).toEqual(takeReference(take, [], { a4Hz: 440 }));
    }
  });

  it("gives the anchor no error of its own; what all strings share goes into the reference only", () => {
    const cents = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(fc.array(cents, { minLength: 2, maxLength: 8 }), cents, fc.nat(), (values, shift, pick) => {
        const names = values.map((_, i) => `s${i}`);
        const anchor = names[pick % names.length]!;
        const options = { anchor, a4Hz: 440 };
        const before = takeReference(
          values.map((value, i) => off(names[i]!, value)),
          [],
          options,
        );
        const after = takeReference(
          values.map((value, i) => off(names[i]!, value + shift)),
          [],
          options,
        );
        expect(after.strings.find(({ name }) => name === anchor)).toMatchObject({ ownErrorCents: 0 });
        // Sums of numbers up to 100 in double precision: 1e-12 is plenty.
        expect(after.referencePitch!.offsetCents - before.referencePitch!.offsetCents).toBeCloseTo(shift, 12);
        for (const [i, string] of after.strings.entries()) {
          expect(string.ownErrorCents! - before.strings[i]!.ownErrorCents!).toBeCloseTo(0, 12);
        }
      }),
    );
  });
});

describe("measureTake with an anchor", () => {
  const still = { swingCents: 0, jitterCents: 0, levelSwingDb: 0 };
  const together = (shift: number) => {
    const upper = { frequencyHz: movedHz(G2, 6 + shift), durationSeconds: 8, ...still };
    const lower = { frequencyHz: movedHz(C2, shift), durationSeconds: 8, ...still, together: [upper] };
    const alone = { frequencyHz: movedHz(C3, -9 + shift), durationSeconds: 4, ...still };
    const take = bowedTake([lower, alone], { seed: 21 });
    return measureTake(recordingOf(take), { targets, a4Hz: 440, anchor: "G2" });
  };
  const reading = together(0);

  it("counts from the anchor, sounding together or alone", () => {
    expect(stringNamed(reading, "G2").ownErrorCents).toBe(0);
    expect(reading.referencePitch?.offsetCents).toBe(stringNamed(reading, "G2").deviationCents);
    // Truth: C2 6 and C3 15 cents flat of G2, without any movement. 0.3 cent is the bar for strings together.
    expect(Math.abs(stringNamed(reading, "C2").ownErrorCents! + 6)).toBeLessThan(0.3);
    expect(Math.abs(stringNamed(reading, "C3").ownErrorCents! + 15)).toBeLessThan(0.3);
    const pair = reading.pairs.find(({ lower, upper }) => lower === "C2" && upper === "G2")!;
    expect(pair.basis).toBe("measured");
    const [low, high] = stringNamed(reading, "C2").ownErrorInterval95Cents!;
    expect(high - low).toBeCloseTo(pair.interval95Cents![1] - pair.interval95Cents![0], 9);
  });

  it("finds the same own errors in an instrument that stands 15 cents higher", () => {
    const higher = together(15);
    // Steady strings in faint noise: what is left is far below 0.1 cent.
    expect(
      Math.abs(higher.referencePitch!.offsetCents - reading.referencePitch!.offsetCents - 15),
    ).toBeLessThan(0.1);
    for (const name of ["C2", "C3"]) {
      const moved = stringNamed(higher, name).ownErrorCents! - stringNamed(reading, name).ownErrorCents!;
      expect(Math.abs(moved)).toBeLessThan(0.1);
    }
  });

  it("says that the anchor was not heard", () => {
    const take = bowedTake([{ frequencyHz: C3, durationSeconds: 3 }], { sampleRateHz: 8000, seed: 22 });
    const read = measureTake(recordingOf(take), { targets, a4Hz: 440, anchor: "G2" });
    expect(codesOf(read.findings)).toContain("anchor-not-heard");
    expect(read.referencePitch?.anchor).toBeNull();
  });
});

describe("measureTake with names that are not there", () => {
  const take = recordingOf(bowedTake([{ frequencyHz: G3, durationSeconds: 2 }], { sampleRateHz: 8000 }));
  const errorOf = (options: Partial<MeasureOptions>) => {
    try {
      return measureTake(take, { targets, a4Hz: 440, ...options });
    } catch (error) {
      return error;
    }
  };

  it("throws, whichever option names them", () => {
    const cases: [string, Partial<MeasureOptions>][] = [
      ["order", { order: ["G2", "nowhere"] }],
      ["sounding", { sounding: ["nowhere"] }],
      ["anchor", { anchor: "nowhere" }],
    ];
    for (const [option, options] of cases) {
      expect(errorOf(options)).toMatchObject({
        code: "string-unknown",
        details: { option, given: "nowhere" },
      });
    }
    expect(errorOf({ targets: null, anchor: "G2" })).toMatchObject({ code: "string-unknown" });
    expect(errorOf({ sounding: ["G2", "G2"] })).toMatchObject({ code: "string-repeated" });
  });
});
