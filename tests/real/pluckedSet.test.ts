import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { nearestNoteTarget } from "../../src/instrument/nearestNoteTarget.js";
import { readSympathetic } from "../../src/sympathetic/readSympathetic.js";
import { cents } from "../../src/units/cents.js";
import { csvRows } from "./csvRows.js";
import { longLineHz } from "./longLineHz.js";
import { wavFile } from "./wavFile.js";

// Sampled plucked notes, rendered beforehand: sh fixtures/realset/render.sh FOLDER (Debian's fluid-soundfont-gm). A pitch tracker is no
// reference here: it takes stiff strings for sharper than their first partial (up to 20 cents, measured), or an octave higher.
const folder = process.env.GURDYBENCH_REALSET ?? "";
const table = join(folder, "plucked-reference.csv");
const present = folder !== "" && existsSync(table);
if (!present) console.log("Skipped: no sampled plucks (GURDYBENCH_REALSET; see fixtures/realset/render.sh).");

const scores = (present ? csvRows(table) : []).map((row) => ({
  file: row.file!,
  instrument: row.instrument!,
  midiNotes: row.midi_notes!,
  startSeconds: Number(row.segment_start_s),
  endSeconds: Number(row.segment_end_s),
}));
const single = scores.filter(({ midiNotes }) => !midiNotes.includes(" "));
const inTurn = scores.filter(({ midiNotes }) => midiNotes.includes(" "));

const targetOf = (midiNote: string) => {
  const { note, targetHz } = nearestNoteTarget(440 * 2 ** ((Number(midiNote) - 69) / 12), 440);
  return { name: note, note, role: "sympathetic" as const, targetHz };
};

function upTo(file: string, seconds: number) {
  const whole = wavFile(join(folder, file));
  const channels = whole.read(0, Math.round(seconds * whole.sampleRateHz));
  return memoryRecording(channels, whole.sampleRateHz);
}

/**
 * The line of a long spectrum weights the middle of the stretch, the reading the beginning, where most of the energy is; guitars,
 * harps and banjos beat and glide, so both are right within some cents (measured: 0.6 on the median, 4.6 at worst). What the
 * reading is unsure of comes on top.
 */
const toleranceCents = (deviationCents: number) => 4 + 3 * deviationCents;
/** The same note over those that ring, in a stretch half as long again. */
const IN_TURN_CENTS = 4;

function readAlone(score: (typeof scores)[number]) {
  const recording = upTo(score.file, score.endSeconds);
  const target = targetOf(score.midiNotes);
  const { strings } = readSympathetic(recording, { targets: [target], a4Hz: 440 });
  return { recording, target, string: strings[0]! };
}

describe.skipIf(!present)("sampled plucked notes", () => {
  it("are all there", () => {
    expect(single.length).toBeGreaterThanOrEqual(16);
    expect(inTurn.length).toBeGreaterThanOrEqual(5);
  });

  it.each(single)("$file agrees with the line of a long spectrum", (score) => {
    const { recording, target, string } = readAlone(score);
    expect(string.plucks).toHaveLength(1);
    const pluck = string.plucks[0]!;
    const away = recording.read(0, recording.frameCount).map((channel) => {
      const { sampleRateHz } = recording;
      const hz = longLineHz(channel, sampleRateHz, pluck.startSeconds, score.endSeconds, target.targetHz);
      return Math.abs(cents(string.frequencyHz!, hz));
    });
    // A pluck is read in the channel that shows it better.
    expect(Math.min(...away)).toBeLessThan(toleranceCents(pluck.deviationCents));
  });

  it.each(inTurn)("$file: every note is found over those that ring, at the pitch it has alone", (score) => {
    const notes = score.midiNotes.split(" ");
    const whole = wavFile(join(folder, score.file));
    const seconds = 0.5 + 1.5 * notes.length;
    const channels = whole.read(0, Math.round(seconds * whole.sampleRateHz));
    const reading = readSympathetic(memoryRecording(channels, whole.sampleRateHz), {
      targets: notes.map(targetOf),
      a4Hz: 440,
    });
    for (const [i, string] of reading.strings.entries()) {
      expect(string.status).toBe("measured");
      const alone = readAlone(
        single.find((one) => one.instrument === score.instrument && one.midiNotes === notes[i])!,
      );
      const away = cents(string.frequencyHz!, alone.string.frequencyHz!);
      const unsure = Math.hypot(string.plucks[0]!.deviationCents, alone.string.plucks[0]!.deviationCents);
      console.log(score.file, notes[i], away.toFixed(2), unsure.toFixed(2), string.plucks.length);
      expect(Math.abs(away)).toBeLessThan(IN_TURN_CENTS + 3 * unsure);
    }
  });
});
