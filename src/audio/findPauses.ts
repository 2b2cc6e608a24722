import type { RecordingSurvey } from "./RecordingSurvey.js";

/** A stretch of a recording. */
export interface TimeSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** A stretch in which no string is driven. */
export interface Pause extends TimeSpan {
  /** Whether a note came right before it, so that its tail rings into the pause. */
  readonly afterNote: boolean;
}

/** A string rings on after the wheel leaves it; the worst of it is over by then (common practice, no source). */
const GUARD_AFTER_SECONDS = 0.3;
/** A note begins softly before a tracker sees it. */
const GUARD_BEFORE_SECONDS = 0.1;
/** The recorder's button and the hand on it (common practice, no source). */
const GUARD_ENDS_SECONDS = 0.1;
/** Below this a spectrum can't tell 50 Hz from a low drone. */
const LEAST_PAUSE_SECONDS = 0.3;

/**
 * The stretches between notes that are long enough to hear the room in, in order of time.
 *
 * @param notes - the stretches in which strings sound, in any order
 */
export function findPauses(survey: RecordingSurvey, notes: readonly TimeSpan[]): Pause[] {
  const end = survey.frameCount / survey.sampleRateHz - GUARD_ENDS_SECONDS;
  const busy = [
    ...notes.map((note) => ({
      startSeconds: note.startSeconds - GUARD_BEFORE_SECONDS,
      endSeconds: note.endSeconds + GUARD_AFTER_SECONDS,
      isNote: true,
    })),
    ...gaps(survey),
    { startSeconds: end, endSeconds: end, isNote: false },
  ].sort((a, b) => a.startSeconds - b.startSeconds);
  const pauses: Pause[] = [];
  let free = GUARD_ENDS_SECONDS;
  let afterNote = false;
  for (const stretch of busy) {
    const until = Math.min(stretch.startSeconds, end);
    if (until - free >= LEAST_PAUSE_SECONDS)
      pauses.push({ startSeconds: free, endSeconds: until, afterNote });
    if (stretch.endSeconds > free) {
      free = stretch.endSeconds;
      afterNote = stretch.isNote;
    }
  }
  return pauses;
}

/** Stretches with values that can't be sound. */
function gaps(survey: RecordingSurvey): (TimeSpan & { isNote: boolean })[] {
  const blockSeconds = survey.blockFrames / survey.sampleRateHz;
  const found: (TimeSpan & { isNote: boolean })[] = [];
  let block = survey.blockNotFinite.indexOf(1);
  while (block >= 0) {
    let next = block + 1;
    while (survey.blockNotFinite[next] === 1) next++;
    found.push({ startSeconds: block * blockSeconds, endSeconds: next * blockSeconds, isNote: false });
    block = survey.blockNotFinite.indexOf(1, next);
  }
  return found;
}
