import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { nearestNoteTarget } from "../../src/instrument/nearestNoteTarget.js";
import { measureTake } from "../../src/reading/measureTake.js";
import { cents } from "../../src/units/cents.js";
import { csvRows } from "./csvRows.js";
import { readSegment } from "./readSegment.js";
import { wavFile } from "./wavFile.js";

// Sampled notes of real strings, rendered beforehand: sh fixtures/realset/render.sh FOLDER (Debian's fluid-soundfont-gm,
// with the frequencies that Debian's aubio-tools find in them).
const folder = process.env.GURDYBENCH_REALSET ?? "";
const table = join(folder, "reference.csv");
const present = folder !== "";
if (!present) console.log("Skipped: no sampled notes (GURDYBENCH_REALSET; see fixtures/realset/render.sh).");

const scores = (present ? csvRows(table) : []).map((row) => ({
  file: row.file!,
  instrument: row.instrument!,
  midiNotes: row.midi_notes!,
  bendCents: Number(row.bend_cents),
  startSeconds: Number(row.segment_start_s),
  endSeconds: Number(row.segment_end_s),
  othersHz: [Number(row.yinfast_hz), Number(row.yinfft_hz)],
}));
type Score = (typeof scores)[number];
const single = scores.filter(({ midiNotes }) => !midiNotes.includes(" "));
const bent = single.filter(({ bendCents }) => bendCents !== 0);
const inTurn = scores.filter(({ midiNotes }) => midiNotes.includes(" "));

/**
 * The outside reference is the median over frames of 0.19 s; the reading is the mean pitch. Measured, the double bass,
 * whose samples hold still: up to 0.8 cents apart (by the bias of yinfft). The others were played with vibrato of 6 to 18
 * cents, uneven in pitch and level, which is looped: up to 5.4 (cello D3, where the phases of the partials, counted one by
 * one, give the same pitch within 0.05 cents and the reading within 0.15).
 */
const toleranceCents = ({ instrument }: Score) => (instrument === "contrabass" ? 1 : 6);
/** The same part of the same sample, so that vibrato cancels. Measured: 0.006 at most; the noise of a tracker is 0.35. */
const BEND_TOLERANCE_CENTS = 0.03;
/** The same note alone or after others; passages are found on one and the same grid of frames. Measured: 0.008 at most. */
const IN_TURN_TOLERANCE_CENTS = 0.05;

const recordingOf = (file: string) => wavFile(join(folder, file));
const nominalHz = (midiNote: string) => 440 * 2 ** ((Number(midiNote) - 69) / 12);

function segmentHz({ startSeconds, endSeconds }: Score, recording: AudioRecording): number {
  const found = readSegment(recording, startSeconds, endSeconds);
  if (found === null || "togetherHz" in found) throw new Error("not read as one string");
  return found.frequencyHz;
}

describe.skipIf(!present)("sampled string notes", () => {
  it("are all there", () => {
    expect(single.length - bent.length).toBeGreaterThanOrEqual(12);
    expect(bent.length).toBeGreaterThanOrEqual(8);
    expect(inTurn.length).toBeGreaterThanOrEqual(4);
  });

  it.each(single)("$file agrees with a general-purpose tracker over the same segment", (score) => {
    const frequencyHz = segmentHz(score, recordingOf(score.file));
    for (const otherHz of score.othersHz) {
      expect(Math.abs(cents(frequencyHz, otherHz))).toBeLessThan(toleranceCents(score));
    }
  });

  for (const score of single.filter(({ bendCents }) => bendCents === 0)) {
    for (const channel of [0, 1]) {
      const name = `${score.file}, channel ${channel} alone`;
      it(`${name}, agrees as well`, () => {
        const both = recordingOf(score.file);
        const alone = memoryRecording([both.read(0, both.frameCount)[channel]!], both.sampleRateHz);
        const away = cents(segmentHz(score, alone), score.othersHz[0]!);
        expect(Math.abs(away)).toBeLessThan(toleranceCents(score));
      });
    }
  }

  it.each(bent)("$file: the difference from the unbent note is $bendCents cents", (score) => {
    const plain = single.find(
      ({ instrument, midiNotes, bendCents }) =>
        instrument === score.instrument && midiNotes === score.midiNotes && bendCents === 0,
    )!;
    const difference = cents(
      segmentHz(score, recordingOf(score.file)),
      segmentHz(plain, recordingOf(plain.file)),
    );
    expect(Math.abs(difference - score.bendCents)).toBeLessThan(BEND_TOLERANCE_CENTS);
  });

  it.each(inTurn)(
    "$file: every string is found, at the pitch it has alone",
    ({ file, instrument, midiNotes }) => {
      const numbers = midiNotes.split(" ");
      // Targets high to low, the strings recorded low to high: it is the pitch that tells them apart.
      const targets = [...numbers].reverse().map((number) => {
        const targetHz = nominalHz(number);
        const { note } = nearestNoteTarget(targetHz, 440);
        return { name: note, note, role: "drone" as const, targetHz };
      });
      const reading = measureTake(recordingOf(file), { targets, a4Hz: 440 });
      for (const [i, string] of reading.strings.entries()) {
        expect(string.status).toBe("measured");
        const alone = measureTake(recordingOf(`${instrument}-${numbers.at(-1 - i)}.wav`), {
          targets: [targets[i]!],
          a4Hz: 440,
        });
        const away = cents(string.frequencyHz!, alone.strings[0]!.frequencyHz!);
        expect(Math.abs(away)).toBeLessThan(IN_TURN_TOLERANCE_CENTS);
      }
    },
  );
});
