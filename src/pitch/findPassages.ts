import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";
import type { PitchTrack } from "./PitchTrack.js";
import { pitchRuns } from "./pitchRuns.js";
import type { SteadyPassage } from "./SteadyPassage.js";
import { voicedFrames } from "./voicedFrames.js";

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
  const { frequencyHz, runs } = pitchRuns(track.frequencyHz, voicedFrames(track));
  return runs.flatMap(([start, end]) => passagesOf(start, end, frequencyHz, track));
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
