import { describe, expect, it } from "vitest";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { shiftByCents } from "../../src/units/cents.js";
import { midiToFrequencyHz } from "../../src/units/midiFrequency.js";
import { bowedTake, recordingOf } from "./bowedTake.js";

/** Each string of a mixture is read this well here; what the two make of it at their common partial is the tolerance. */
const PER_STRING_CENTS = 0.05;

/** Tempered exactly, and held still: only the mixture stands between these strings and their beats. */
const steady = { swingCents: 0, jitterCents: 0, levelSwingDb: 0, durationSeconds: 8 };
const targets = stringTargets(findTuning("soprano"), {});

describe("beats of tempered strings, read from the sound of both", () => {
  it.each([
    // |p f1 - q f2|, f = 440 * 2^((m - 69) / 12). The fourth G3-C4 beats as fast as the fifth C4-G4 above it, whose beats a
    // published tuning table rounds to .9 (Capleton, Theory and Practice of Piano Tuning, 2007); C3-G3 half as fast as that.
    { lower: "C3", low: 48, upper: "G3", high: 55, p: 3, q: 2, beats: 0.4429, fromPure: -1.955 },
    { lower: "G3", low: 55, upper: "C4", high: 60, p: 4, q: 3, beats: 0.8858, fromPure: 1.955 },
  ])("$lower and $upper: $beats a second", ({ lower, low, upper, high, p, q, beats, fromPure }) => {
    const [lowHz, highHz] = [low, high].map((midi) => midiToFrequencyHz(midi, 440));
    expect(Math.abs(p * lowHz - q * highHz)).toBeCloseTo(beats, 4);
    const take = bowedTake([
      { ...steady, frequencyHz: lowHz, together: [{ ...steady, frequencyHz: highHz }] },
    ]);
    const reading = measureTake(recordingOf(take), { targets, a4Hz: 440, sounding: [lower, upper] });
    const pair = reading.pairs.find((one) => one.lower === lower && one.upper === upper);
    expect(pair).toMatchObject({ ratio: `${p}:${q}`, basis: "measured" });
    const perString = shiftByCents(p * lowHz, PER_STRING_CENTS) - p * lowHz;
    expect(Math.abs(pair!.beatsPerSecond - beats)).toBeLessThan(2 * perString);
    expect(Math.abs(pair!.centsFromPure - fromPure)).toBeLessThan(2 * PER_STRING_CENTS);
  });
});
