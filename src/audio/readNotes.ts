import type { AudioRecording } from "./AudioRecording.js";
import type { TimeSpan } from "./findPauses.js";
import type { RecordingSurvey } from "./RecordingSurvey.js";
import { readAnalysisBand } from "./readAnalysisBand.js";

/** So many notes, spread over the take, give their mean level within a fraction of a decibel. */
const MOST_NOTES = 16;
/** The middle of each note, so long at most. */
const LONGEST_SECONDS = 1;
/** Shorter ones have no middle. */
const LEAST_SECONDS = 0.3;

/** Samples of the notes in the analysis band: the middles of some of them, one array a channel each. */
export function readNotes(
  recording: AudioRecording,
  survey: RecordingSurvey,
  notes: readonly TimeSpan[],
): Float32Array[][] {
  const usable = notes
    .map(({ startSeconds, endSeconds }) => ({
      startSeconds: Math.max(0, startSeconds),
      endSeconds: Math.min(recording.durationSeconds, endSeconds),
    }))
    .filter(({ startSeconds, endSeconds }) => endSeconds - startSeconds >= LEAST_SECONDS)
    .sort((a, b) => a.startSeconds - b.startSeconds);
  const count = Math.min(MOST_NOTES, usable.length);
  return Array.from({ length: count }, (_, k) => {
    const { startSeconds, endSeconds } = usable[Math.floor(((k + 0.5) * usable.length) / count)];
    const trim = Math.max(0, (endSeconds - startSeconds - LONGEST_SECONDS) / 2);
    const span = { startSeconds: startSeconds + trim, endSeconds: endSeconds - trim };
    return readAnalysisBand(recording, survey, span);
  });
}
