import { beforeAll, describe, expect, it } from "vitest";
import { measureTake } from "../../src/reading/measureTake.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { cents } from "../../src/units/cents.js";
import {
  bowedTake,
  codesOf,
  NOTE_HZ,
  placedAt,
  realisedHz,
  recordingOf,
  type TakeNote,
} from "../reading/bowedTake.js";

/**
 * How true is a printed pitch, from samples to reading? Eight notes of 6 s at 48 kHz, one after another, with wheel swing
 * and random movement. The truth is the pitch that the generator went through in exactly the printed passage.
 */
const NOTES = ["C2", "E2", "G2", "C3", "G3", "D4", "G4", "G5"] as const;
const TAKES = 5;
const RUN_MS = 240_000;
const SAMPLE_RATE_HZ = 48_000;

interface NoteErrors {
  readonly pitchCents: number[];
  readonly levelDb: number[];
}

const errors = new Map<string, NoteErrors>(NOTES.map((note) => [note, { pitchCents: [], levelDb: [] }]));
const warnings: string[] = [];

/** A string with all partials below 3.2 kHz at 1/n, and every third of them weak, so that levels differ. */
function amplitudesOf(frequencyHz: number): number[] {
  return Array.from(
    { length: Math.floor(3200 / frequencyHz) },
    (_, n) => (0.12 / (n + 1)) * (n % 3 === 2 ? 0.3 : 1),
  );
}

function noteAt(name: (typeof NOTES)[number], random: SeededRandom): TakeNote {
  const frequencyHz = NOTE_HZ[name] * 2 ** (random.uniform(-30, 30) / 1200);
  return {
    frequencyHz,
    durationSeconds: 6,
    partialAmplitudes: amplitudesOf(frequencyHz),
    swingCents: random.uniform(1, 3),
    swingRateHz: random.uniform(0.8, 2.5),
    jitterCents: 0.5,
    jitterSeconds: random.uniform(0.02, 0.2),
    levelSwingDb: 0,
  };
}

beforeAll(() => {
  for (let t = 0; t < TAKES; t++) {
    const random = new SeededRandom(820_500 + t);
    const plan = { sampleRateHz: SAMPLE_RATE_HZ, pauseSeconds: 1, noiseDb: -65, seed: 9500 + t };
    const take = bowedTake(
      NOTES.map((name) => noteAt(name, random)),
      plan,
    );
    const reading = measureTake(recordingOf(take), { targets: null, a4Hz: 440 });
    warnings.push(...codesOf(reading.findings.filter(({ severity }) => severity !== "info")));
    for (const string of reading.strings) {
      const [passage] = string.perPassage;
      const placed = placedAt(take, passage);
      const found = errors.get(NOTES[take.placed.indexOf(placed!)])!;
      found.pitchCents.push(Math.abs(cents(passage.frequencyHz, realisedHz(placed!, passage))));
      const amplitudes = amplitudesOf(placed!.string.pitch.underlyingHz);
      for (const partial of string.partials) {
        if (partial.levelDb === null || (partial.signalToNoiseDb ?? 0) < 20) continue;
        const levelDb = partial.levelDb + string.levelDb!;
        found.levelDb.push(Math.abs(levelDb - 20 * Math.log10(amplitudes[partial.number - 1])));
      }
    }
  }
  const lines = NOTES.map((note) => {
    const { pitchCents, levelDb } = errors.get(note)!;
    const numbers = [median(pitchCents), Math.max(...pitchCents), median(levelDb), Math.max(...levelDb)];
    return `${note}  ${numbers.map((value) => value.toFixed(4).padStart(9)).join(" ")}  ${levelDb.length}`;
  });
  console.log(["    cents: median, worst  dB: median, worst  partials", ...lines].join("\n"));
}, RUN_MS);

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

describe("whole path at 48 kHz", () => {
  it("reads every string of every take and warns of nothing", () => {
    for (const note of NOTES) expect(errors.get(note)?.pitchCents).toHaveLength(TAKES);
    expect(warnings).toEqual([]);
  });

  it.each(NOTES)("%s: pitch within 0.15 cents in the median, 0.4 at worst", (note) => {
    // What is asked of the bench: an order below the 2 cents that a fine tuner works to (common practice, no source).
    const { pitchCents } = errors.get(note)!;
    expect(median(pitchCents)).toBeLessThanOrEqual(0.15);
    expect(Math.max(...pitchCents)).toBeLessThanOrEqual(0.4);
    // Tones as ideal as these come out ten times better; a loss of that would pass for good otherwise.
    expect(Math.max(...pitchCents)).toBeLessThanOrEqual(0.04);
  });

  it.each(NOTES)("%s: partials 20 dB above the noise within 0.2 dB in the median, 0.6 at worst", (note) => {
    // Noise 20 dB down shifts an amplitude by up to 0.1 of itself (0.9 dB) in one frame; the mean over a passage of a
    // hundred frames or more averages that to a tenth.
    const { levelDb } = errors.get(note)!;
    // G5 has three partials below the top of the analysis band, in each take.
    expect(levelDb.length).toBeGreaterThanOrEqual(2 * TAKES);
    expect(median(levelDb)).toBeLessThanOrEqual(0.2);
    expect(Math.max(...levelDb)).toBeLessThanOrEqual(0.6);
    // The same for levels.
    expect(median(levelDb)).toBeLessThanOrEqual(0.02);
  });
});
