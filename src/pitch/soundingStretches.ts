import type { PitchTrack } from "./PitchTrack.js";
import { soundingThreshold, voicedFrames } from "./voicedFrames.js";

/** A stretch of the recording. */
export interface Stretch {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** Dips shorter than this don't end a stretch. */
const GAP_FRAMES = 15;
/** Shorter ones are knocks and clicks. */
const LEAST_FRAMES = 20;

/** Several strings at once have a weaker periodicity than one, noise a weaker one still (0.25 at most). */
const MIXTURE_CLARITY = 0.3;

/**
 * Stretches in which something sounds, whether or not a pitch could be followed in it: several strings at once, a
 * glide, speech. What lies between them is pause. In a take without quiet parts only what has some
 * periodicity counts, since steady noise would otherwise pass for sound.
 */
export function soundingStretches(track: PitchTrack): Stretch[] {
  const { thresholdDb, hasPauses } = soundingThreshold(track);
  const voiced = voicedFrames(track);
  const stretches: Stretch[] = [];
  let first = -1;
  let last = -1;
  const close = () => {
    if (first >= 0 && last - first >= LEAST_FRAMES) {
      stretches.push({ startSeconds: first * track.hopSeconds, endSeconds: last * track.hopSeconds });
    }
    first = -1;
  };
  for (let i = 0; i < voiced.length; i++) {
    const loud = track.levelDb[i] >= thresholdDb;
    if (voiced[i] === 0 && !(loud && (hasPauses || track.clarity[i] >= MIXTURE_CLARITY))) continue;
    if (first >= 0 && i - last > GAP_FRAMES) close();
    if (first < 0) first = i;
    last = i;
  }
  close();
  return stretches;
}
