import type { AnalysisSegment } from "../../src/partials/AnalysisSegment.js";
import { fitHarmonics } from "../../src/partials/fitHarmonics.js";
import { EDGE_SECONDS, type NoteCut } from "./noteCut.js";

/** Root mean square of a note at 0 dB. */
const LEVEL = 0.1;

/** Several notes laid over each other. */
export interface SumOfNotes {
  readonly notes: readonly NoteCut[];
  readonly levelsDb: readonly number[];
  readonly segment: AnalysisSegment;
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** What each note has over the same time when it sounds alone. */
  readonly truthsHz: readonly number[];
}

/** Adds notes at the given levels, over as long as the shortest of them lasts. */
export function sumOfNotes(notes: readonly NoteCut[], levelsDb: readonly number[]): SumOfNotes {
  const [{ sampleRateHz }] = notes;
  if (notes.some((note) => note.sampleRateHz !== sampleRateHz)) throw new Error("notes of several rates");
  const seconds = Math.min(...notes.map((note) => note.seconds));
  const samples = new Float32Array(Math.round((seconds + 2 * EDGE_SECONDS) * sampleRateHz));
  for (const [i, note] of notes.entries()) {
    const heard = note.samples.subarray(
      Math.round(EDGE_SECONDS * sampleRateHz),
      Math.round((EDGE_SECONDS + seconds) * sampleRateHz),
    );
    const rms = Math.sqrt(heard.reduce((sum, value) => sum + value * value, 0) / heard.length);
    const gain = (LEVEL * 10 ** (levelsDb[i] / 20)) / rms;
    const end = Math.min(samples.length, note.samples.length);
    for (let k = 0; k < end; k++) samples[k] += gain * note.samples[k];
  }
  return {
    notes,
    levelsDb,
    segment: { samples, sampleRateHz, firstSeconds: 0 },
    startSeconds: EDGE_SECONDS,
    endSeconds: EDGE_SECONDS + seconds,
    truthsHz: notes.map((note) => aloneHz(note, seconds)),
  };
}

const known = new Map<string, number>();

function aloneHz(note: NoteCut, seconds: number): number {
  const key = `${note.name} ${seconds}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const length = Math.round((seconds + 2 * EDGE_SECONDS) * note.sampleRateHz);
  const segment = {
    samples: note.samples.slice(0, length),
    sampleRateHz: note.sampleRateHz,
    firstSeconds: 0,
  };
  const fit = fitHarmonics(segment, EDGE_SECONDS, EDGE_SECONDS + seconds, note.roughHz);
  if (fit === null) throw new Error(`${note.name} was not read alone`);
  known.set(key, fit.frequencyHz);
  return fit.frequencyHz;
}
