import { cents } from "../units/cents.js";
import type { NoteReading } from "./readNote.js";

/** The pitch of a note over a short step. */
export interface PitchStep {
  readonly seconds: number;
  readonly cents: number;
  /** Index of the note among those played. */
  readonly note: number;
}

const STEP_SECONDS = 0.09;

/** Exact means of a note's pitch over equal steps of about 90 ms (the course is smoothed over 120 ms, so shorter ones would say the same thing twice), in cents over a reference. */
export function pitchSteps(note: NoteReading, index: number, referenceHz: number): PitchStep[] {
  const { centSeconds, hopSeconds } = note.course;
  const last = centSeconds.length - 1;
  const duration = last * hopSeconds;
  const count = Math.max(2, Math.round(duration / STEP_SECONDS));
  const over = cents(note.frequencyHz, referenceHz);
  const at = (share: number) => {
    const position = share * last;
    const m = Math.min(last - 1, Math.floor(position));
    return centSeconds[m] + (position - m) * (centSeconds[m + 1] - centSeconds[m]);
  };
  const step = duration / count;
  return Array.from({ length: count }, (_, i) => ({
    seconds: note.startSeconds + (i + 0.5) * step,
    cents: over + (at((i + 1) / count) - at(i / count)) / step,
    note: index,
  }));
}
