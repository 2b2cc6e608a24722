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

// Sampled plucked notes, rendered beforehand: sh fixtures/realset/render.sh FOLDER (Debian's fluid-soundfont-gm, with the
// frequencies that Debian's aubio-tools find in them).
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
  othersHz: [Number(row.yinfast_hz), Number(row.yinfft_hz)],
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

describe.skipIf(!present)("sampled plucked notes", () => {
  it("are all there", () => {
    expect(single.length).toBeGreaterThanOrEqual(17);
    expect(inTurn.length).toBeGreaterThanOrEqual(6);
  });

  it.each(single)("$file agrees with the line of a long spectrum, and with a tracker", (score) => {
    const recording = upTo(score.file, score.endSeconds);
    const target = targetOf(score.midiNotes);
    const reading = readSympathetic(recording, { targets: [target], a4Hz: 440 });
    const [string] = reading.strings;
    expect(string!.plucks).toHaveLength(1);
    const [pluck] = string!.plucks;
    const lines = recording
      .read(0, recording.frameCount)
      .map((channel) =>
        longLineHz(channel, recording.sampleRateHz, pluck!.startSeconds, score.endSeconds, target.targetHz),
      );
    const away = lines.map((hz) => cents(string!.frequencyHz!, hz));
    const others = score.othersHz.map((hz) => cents(string!.frequencyHz!, hz));
    console.log(
      `${score.file}: line ${away.map((one) => one.toFixed(2))}, tracker ${others.map((one) => one.toFixed(2))} cents away, ` +
        `sd ${pluck!.deviationCents.toFixed(2)}, glide ${pluck!.glideCents.toFixed(1)}, split ${pluck!.splitHz?.toFixed(2) ?? "-"}, T60 ${pluck!.decaySeconds.toFixed(1)}`,
    );
    expect(Math.min(...away.map(Math.abs))).toBeLessThan(3 + 3 * pluck!.deviationCents);
  });
});
