import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { cents } from "../../src/units/cents.js";
import { whiteNoise } from "./bowedTake.js";
import { addGliding, type GlidingString } from "./glidingString.js";

const RATE = 8000;
const targets = stringTargets(findTuning("alto-three"), {});
const targetHz = (name: string) => targets.find((target) => target.name === name)!.targetHz;

/** A string of the tuning; `centsAt` in cents from its target. */
type Voice = Omit<GlidingString, "frequencyHz"> & { readonly name: string };

function readingOf(seconds: number, voices: readonly Voice[], seed: number) {
  const samples = whiteNoise(seconds * RATE, -80, seed);
  for (const [v, voice] of voices.entries()) {
    addGliding(samples, RATE, { ...voice, frequencyHz: targetHz(voice.name) }, 100 * seed + v);
  }
  return measureTake(memoryRecording([samples], RATE), { targets, a4Hz: 440 });
}

describe("a peg turned while other strings sound", () => {
  const START = 1;
  const GLIDE_FROM = 5;

  it.each([
    // Over C2 and G2 all partials of G4 are shared: a mean over the move was no line at all, and G4 was lost.
    { others: { C2: -3, G2: -6 }, moved: "G4", from: 18, to: -5, glideSeconds: 4 },
    // On the way G3 is an octave from G2, and its second partials would pass for a G4.
    { others: { G2: -3 }, moved: "G3", from: -35, to: 4, glideSeconds: 4.5 },
    { others: { G2: 6, C3: 1 }, moved: "C3", from: 5, to: -28, glideSeconds: 3 },
    { others: { C2: -5, C3: 2, G3: 4 }, moved: "C2", from: -26, to: -8, glideSeconds: 2.5 },
    { others: { D4: -4 }, moved: "G3", from: 38, to: 6, glideSeconds: 4 },
  ])("$moved from $from to $to cents, over $others", ({ others, moved, from, to, glideSeconds }) => {
    const end = GLIDE_FROM + glideSeconds + 4;
    const course = (seconds: number) =>
      from + (to - from) * Math.min(1, Math.max(0, (seconds - GLIDE_FROM) / glideSeconds));
    const still = Object.entries(others).filter(([name]) => name !== moved);
    const voices = [
      ...still.map(([name, away]) => ({ name, fromSeconds: START, toSeconds: end, centsAt: () => away })),
      { name: moved, fromSeconds: START, toSeconds: end, centsAt: course },
    ];
    const reading = readingOf(end + 1, voices, 8101);
    const measured = reading.strings.filter(({ status }) => status === "measured");
    // No string that does not sound, not even as one that could not be told.
    expect(
      reading.strings
        .filter(({ status }) => status !== "not-heard")
        .map(({ name }) => name)
        .sort(),
    ).toEqual(voices.map(({ name }) => name).sort());
    // The swing of 1.2 cents over a passage that need not hold whole turns moves its mean by 0.1; what is left of the
    // move at its edge by 0.3 more.
    const TOLERANCE_CENTS = 0.5;
    for (const [name, away] of still) {
      const string = measured.find((one) => one.name === name)!;
      expect(Math.abs(string.deviationCents! - away)).toBeLessThan(TOLERANCE_CENTS);
      expect(string.findings.map(({ code }) => code)).not.toContain("string-moved");
    }
    const string = measured.find((one) => one.name === moved)!;
    expect(Math.abs(string.deviationCents! - to)).toBeLessThan(TOLERANCE_CENTS);
    expect(Math.abs(string.perPassage[0].deviationCents - from)).toBeLessThan(TOLERANCE_CENTS);
    const finding = string.findings.find(({ code }) => code === "string-moved")!;
    expect(finding.values.reason).toBe("after");
    // Means over a second, at half a second from the move: swing of 0.3 cents on either side, and what is left of the move.
    expect(Math.abs(Number(finding.values.movedCents) - (to - from))).toBeLessThan(2);
    expect(Number(finding.values.startSeconds)).toBeLessThan(GLIDE_FROM + 1);
    expect(Number(finding.values.endSeconds)).toBeGreaterThan(GLIDE_FROM + glideSeconds - 1);
    // Beats are those of the pitch that is given.
    for (const pair of reading.pairs.filter(({ basis }) => basis === "measured")) {
      const [lower, upper] = [pair.lower, pair.upper].map(
        (name) => measured.find((one) => one.name === name)!.frequencyHz!,
      );
      const [p, q] = pair.ratio.split(":").map(Number);
      expect(Math.abs(pair.centsFromPure - cents((upper * q) / p, lower))).toBeLessThan(TOLERANCE_CENTS);
    }
  });
});

describe("melody notes of a second over drones", () => {
  it.each([8201, 8202, 8203])("are read where they sound, or not at all (seed %d)", (seed) => {
    const NOTE_SECONDS = 1.1;
    const order = ["G4", "G3", "D4"];
    const drones = seed % 2 === 0 ? ["G2", "C3"] : ["C2", "G2", "C3"];
    const away = (name: string) => ((name.charCodeAt(0) + Number(name[1]) * seed) % 13) - 6;
    const notes = Array.from({ length: 6 }, (_, i) => ({
      name: order[(i + seed) % 3],
      fromSeconds: 2.2 + i * NOTE_SECONDS,
      toSeconds: 2.2 + (i + 1) * NOTE_SECONDS,
    }));
    const end = notes[5].toSeconds;
    const voices = [...drones.map((name) => ({ name, fromSeconds: 1, toSeconds: end })), ...notes];
    const reading = readingOf(
      end + 1,
      voices.map((voice) => ({ ...voice, centsAt: () => away(voice.name) })),
      seed,
    );
    for (const { name, status, perPassage } of reading.strings) {
      if (status !== "measured") continue;
      for (const { startSeconds, endSeconds } of perPassage) {
        const sounding = voices
          .filter((voice) => voice.name === name)
          .map(
            ({ fromSeconds, toSeconds }) =>
              Math.min(toSeconds, endSeconds) - Math.max(fromSeconds, startSeconds),
          )
          .reduce((sum, seconds) => sum + Math.max(0, seconds), 0);
        // A note of a second in a passage of 1.5, the shortest there is, is two thirds of it.
        expect(sounding / (endSeconds - startSeconds), name).toBeGreaterThan(0.6);
      }
    }
    // The drones sound throughout, and at least the lowest can always be told by partials of its own.
    expect(reading.strings.find(({ name }) => name === drones[0])!.status).toBe("measured");
  });
});

describe("a bow or a wheel that presses harder", () => {
  it("changes the spectrum and not the strings: the fifth is read throughout", () => {
    // The upper partials come and go every 1.4 s; nothing joins or leaves.
    const END = 8;
    const SWELL_SECONDS = 1.4;
    const fifth = [
      { name: "C3", away: 3 },
      { name: "G3", away: -4 },
    ];
    const dull = whiteNoise((END + 1) * RATE, -80, 8301);
    const bright = new Float32Array(dull.length);
    for (const [v, { name, away }] of fifth.entries()) {
      const string = { fromSeconds: 1, toSeconds: END, centsAt: () => away, frequencyHz: targetHz(name) };
      addGliding(dull, RATE, string, 8310 + v);
      addGliding(bright, RATE, string, 8310 + v);
    }
    // A second difference lifts a partial with the square of its frequency, keeps its phase but for its sign, and is small at the fundamental.
    const samples = dull.map((value, i) => {
      const bend = (bright[i + 1] ?? 0) - 2 * bright[i] + (bright[i - 1] ?? 0);
      const isBright = Math.floor((i / RATE - 1) / SWELL_SECONDS) % 2 === 1;
      return value - (isBright ? 0.6 : 0) * bend;
    });
    const reading = measureTake(memoryRecording([samples], RATE), { targets, a4Hz: 440 });
    expect(reading.passages.map(({ strings }) => strings.join("+"))).toEqual(["C3+G3"]);
    expect(reading.passages[0].endSeconds - reading.passages[0].startSeconds).toBeGreaterThan(5.5);
    for (const { name, away } of fifth) {
      // Swing of 1.2 cents over turns that are not whole.
      expect(Math.abs(reading.strings.find((one) => one.name === name)!.deviationCents! - away)).toBeLessThan(
        0.4,
      );
    }
  });
});
