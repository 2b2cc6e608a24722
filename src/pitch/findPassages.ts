import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";
import type { PitchTrack } from "./PitchTrack.js";
import type { SteadyPassage } from "./SteadyPassage.js";
import { voicedFrames } from "./voicedFrames.js";

/** A jump that lasts is another note; wheel swing and player's push stay well inside. */
const NOTE_CHANGE_CENTS = 40;
const NOTE_CHANGE_FRAMES = 4;
const GAP_FRAMES = 5;
const MERGE_GAP_FRAMES = 15;
const MERGE_CENTS = 20;
/** Attack and decay: the level is this far below the passage's median, or the pitch this far off it. */
const EDGE_LEVEL_DB = 6;
const EDGE_CENTS = 15;
const TRIM_START_SECONDS = 0.2;
const TRIM_END_SECONDS = 0.15;
const SHORT_TRIM_SECONDS = 0.08;
const LEAST_SECONDS = 0.35;
/** A longer passage is cut into equal parts, so that memory stays bounded. */
const LONGEST_SECONDS = 60;

/** Finds the steady passages of a track, in order of time. */
export function findPassages(track: PitchTrack): SteadyPassage[] {
  const frequencyHz = medianFiltered(track.frequencyHz);
  const voiced = voicedFrames(track);
  const runs = mergeRuns(splitRuns(frequencyHz, voiced), frequencyHz);
  return runs.flatMap(([start, end]) => passagesOf(start, end, frequencyHz, track));
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

type Run = [start: number, end: number];

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

function passagesOf(
  start: number,
  end: number,
  frequencyHz: Float32Array,
  track: PitchTrack,
): SteadyPassage[] {
  const middleHz = median(frequencyHz.subarray(start, end));
  const middleDb = median(track.levelDb.subarray(start, end));
  const steady = (i: number) =>
    Math.abs(cents(frequencyHz[i], middleHz)) <= EDGE_CENTS && track.levelDb[i] >= middleDb - EDGE_LEVEL_DB;
  let first = start;
  let last = end - 1;
  while (first < last && !steady(first)) first++;
  while (last > first && !steady(last)) last--;
  const soundStartSeconds = first * track.hopSeconds;
  const soundEndSeconds = last * track.hopSeconds;
  const length = soundEndSeconds - soundStartSeconds;
  const long = length - TRIM_START_SECONDS - TRIM_END_SECONDS >= 2 * LEAST_SECONDS;
  const from = soundStartSeconds + (long ? TRIM_START_SECONDS : SHORT_TRIM_SECONDS);
  const to = soundEndSeconds - (long ? TRIM_END_SECONDS : SHORT_TRIM_SECONDS);
  if (to - from < LEAST_SECONDS) return [];
  const parts = Math.ceil((to - from) / LONGEST_SECONDS);
  return Array.from({ length: parts }, (_, part) => ({
    startSeconds: from + ((to - from) * part) / parts,
    endSeconds: from + ((to - from) * (part + 1)) / parts,
    soundStartSeconds,
    soundEndSeconds,
    frequencyHz: median(frequencyHz.subarray(first, last + 1)),
  }));
}
