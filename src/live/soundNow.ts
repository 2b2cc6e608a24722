import { pitchRuns } from "../pitch/pitchRuns.js";
import { median } from "../signal/median.js";
import { cents } from "../units/cents.js";
import { MEAN_SECONDS, MEAN_STEP_SECONDS, type NewestPitch, newestPitch } from "./newestPitch.js";
import type { RecentFrames } from "./RecentTrack.js";

/** What sounds with one pitch, or did last. */
export interface PitchRun {
  readonly startSeconds: number;
  /** When its pitch was last there. */
  readonly endSeconds: number;
  /** From when on it was as loud as later, and until when. */
  readonly steadyStartSeconds: number;
  readonly steadyEndSeconds: number;
  /** Median of its newest frames, its octave not checked. */
  readonly frequencyHz: number;
  readonly newest: NewestPitch;
}

/** What sounds at the end of the track. */
export interface SoundNow {
  /** Since when something sounds without a break; null where nothing does. */
  readonly soundStartSeconds: number | null;
  /** True where it sounds in the newest frames, too. */
  readonly isSounding: boolean;
  /** When something last sounded; null where nothing did in the frames. */
  readonly soundEndSeconds: number | null;
  /** The last stretch of one pitch; null where there is none. */
  readonly run: PitchRun | null;
  /** True where that pitch is there now. */
  readonly isRunNow: boolean;
}

/** Dips shorter than this don't end a sound ... */
const SOUND_GAP_FRAMES = 15;
/** ... nor a pitch. */
const PITCH_GAP_FRAMES = 6;
const NEWEST_FRAMES = 3;
/** A fundamental is told by so much of the newest sound; a glide has not gone far in it. */
const MEDIAN_SECONDS = 0.3;
/** It fades where its level is this far below that of the last second. */
const EDGE_LEVEL_DB = 6;
const LEVEL_SECONDS = 1;

/** What sounds at the end of the track, and since when. */
export function soundNow(frames: RecentFrames): SoundNow {
  const { first, hopSeconds, sounding, voiced } = frames;
  const count = sounding.length;
  const secondsOf = (frame: number) => (first + frame) * hopSeconds;
  const lastSound = sounding.lastIndexOf(1);
  let start = lastSound;
  for (let i = lastSound, gap = 0; i >= 0 && gap <= SOUND_GAP_FRAMES; i--) {
    gap = sounding[i] === 1 ? 0 : gap + 1;
    if (gap === 0) start = i;
  }
  const goesOn = lastSound >= 0 && count - 1 - lastSound <= SOUND_GAP_FRAMES;
  const { frequencyHz, runs } = pitchRuns(frames.frequencyHz, voiced);
  const last = runs.at(-1);
  return {
    soundStartSeconds: goesOn ? secondsOf(start) : null,
    isSounding: lastSound >= 0 && count - 1 - lastSound <= NEWEST_FRAMES,
    soundEndSeconds: lastSound < 0 ? null : secondsOf(lastSound),
    run: last === undefined ? null : runOf(frames, frequencyHz, last[0], last[1]),
    isRunNow: last !== undefined && count - last[1] <= PITCH_GAP_FRAMES,
  };
}

function runOf(frames: RecentFrames, frequencyHz: Float32Array, from: number, to: number): PitchRun {
  const { first, hopSeconds, levelDb } = frames;
  const back = (seconds: number, end = to) => Math.max(from, end - Math.round(seconds / hopSeconds));
  const newestHz = median(frequencyHz.subarray(back(MEDIAN_SECONDS), to));
  const span = Math.round(MEAN_SECONDS / hopSeconds);
  const means: number[] = [];
  for (let end = to; end - span >= from; end -= Math.round(MEAN_STEP_SECONDS / hopSeconds)) {
    means.push(cents(median(frequencyHz.subarray(end - span, end)), newestHz));
  }
  const usualDb = median(levelDb.subarray(back(LEVEL_SECONDS), to));
  const isFull = (frame: number) => levelDb[frame] >= usualDb - EDGE_LEVEL_DB;
  let steadyStart = from;
  let steadyEnd = to - 1;
  while (steadyStart < steadyEnd && !isFull(steadyStart)) steadyStart++;
  while (steadyEnd > steadyStart && !isFull(steadyEnd)) steadyEnd--;
  return {
    startSeconds: (first + from) * hopSeconds,
    endSeconds: (first + to - 1) * hopSeconds,
    steadyStartSeconds: (first + steadyStart) * hopSeconds,
    steadyEndSeconds: (first + steadyEnd) * hopSeconds,
    frequencyHz: newestHz,
    newest: newestPitch(means),
  };
}
