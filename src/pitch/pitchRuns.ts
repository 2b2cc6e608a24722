import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";

/** A jump that lasts is another note; wheel swing and player's push stay well inside. */
const NOTE_CHANGE_CENTS = 40;
const NOTE_CHANGE_FRAMES = 4;
const GAP_FRAMES = 5;
const MERGE_GAP_FRAMES = 15;
const MERGE_CENTS = 20;

/** First frame of a run, and the one after its last. */
type Run = [start: number, end: number];

/** Stretches of frames that hold one pitch each, in order of time, and the pitch by frame without its glitches. */
export interface PitchRuns {
  readonly frequencyHz: Float32Array;
  readonly runs: readonly (readonly [start: number, end: number])[];
}

/**
 * Parts a track where the pitch jumps for good or is gone; a string that glides stays one run.
 *
 * @param frequencyHz - of each frame
 * @param voiced - 1 for each frame in which something with a pitch sounds, else 0
 */
export function pitchRuns(frequencyHz: Float32Array, voiced: Uint8Array): PitchRuns {
  const filtered = medianFiltered(frequencyHz);
  return { frequencyHz: filtered, runs: mergeRuns(splitRuns(filtered, voiced), filtered) };
}

/** Running median of seven; kept sorted from one value to the next, since this is done for every frame of the take. */
function medianFiltered(values: Float32Array): Float32Array {
  const half = 3;
  const last = values.length - 1;
  const sorted: number[] = [];
  const place = (value: number) => {
    let at = sorted.length;
    while (at > 0 && sorted[at - 1] > value) at--;
    return at;
  };
  for (let i = 0; i < Math.min(half, values.length); i++) sorted.splice(place(values[i]), 0, values[i]);
  return values.map((_, i) => {
    if (i > half) sorted.splice(sorted.indexOf(values[i - half - 1]), 1);
    if (i + half <= last) sorted.splice(place(values[i + half]), 0, values[i + half]);
    const middle = sorted.length >> 1;
    return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
  });
}

function splitRuns(frequencyHz: Float32Array, voiced: Uint8Array): Run[] {
  const runs: Run[] = [];
  let start = -1;
  let lastVoiced = -1;
  let away = 0;
  const close = (end: number) => {
    if (start >= 0 && end > start) runs.push([start, end]);
    start = -1;
    away = 0;
  };
  for (let i = 0; i < voiced.length; i++) {
    if (voiced[i] === 0) {
      if (start >= 0 && i - lastVoiced > GAP_FRAMES) close(lastVoiced + 1);
      continue;
    }
    lastVoiced = i;
    if (start < 0) {
      start = i;
      continue;
    }
    const reference = median(
      frequencyHz.subarray(Math.max(start, i - away - 15), Math.max(start + 1, i - away)),
    );
    away = Math.abs(cents(frequencyHz[i], reference)) > NOTE_CHANGE_CENTS ? away + 1 : 0;
    if (away >= NOTE_CHANGE_FRAMES) {
      const change = i - away + 1;
      close(change);
      start = change;
    }
  }
  close(lastVoiced + 1);
  return runs;
}

function mergeRuns(runs: Run[], frequencyHz: Float32Array): Run[] {
  const pitchOf = ([start, end]: Run) => median(frequencyHz.subarray(start, end));
  const merged: Run[] = [];
  // A glitch of a few frames (an octave slip, a click) must not cut a passage in two.
  for (const run of runs.filter(([start, end]) => end - start > GAP_FRAMES)) {
    const previous = merged.at(-1);
    if (
      previous !== undefined &&
      run[0] - previous[1] <= MERGE_GAP_FRAMES &&
      Math.abs(cents(pitchOf(run), pitchOf(previous))) <= MERGE_CENTS
    ) {
      previous[1] = run[1];
    } else {
      merged.push([...run]);
    }
  }
  return merged;
}
