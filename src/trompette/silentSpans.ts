import type { TimeSpan } from "../audio/findPauses.js";
import type { BandCourse } from "./BandCourse.js";
import type { FoundStroke } from "./findStrokes.js";

/** The room rings on after a stroke. */
const AFTER_SECONDS = 0.05;
const BEFORE_SECONDS = 0.02;

/** The stretches in which a string sounds and nothing buzzes, longest first. */
export function silentSpans(course: BandCourse, strokes: readonly FoundStroke[]): TimeSpan[] {
  const { firstSeconds, hopSeconds, count } = course;
  const isSilent = course.isHeard.slice();
  for (const { onsetSeconds, endSeconds } of strokes) {
    const from = Math.round((onsetSeconds - BEFORE_SECONDS - firstSeconds) / hopSeconds);
    const to = Math.round((endSeconds + AFTER_SECONDS - firstSeconds) / hopSeconds);
    isSilent.fill(0, Math.max(0, from), Math.max(0, to));
  }
  const spans: TimeSpan[] = [];
  let from = -1;
  for (let m = 0; m <= count; m++) {
    const silent = m < count && isSilent[m] === 1;
    if (silent && from < 0) from = m;
    if (!silent && from >= 0) {
      spans.push({
        startSeconds: firstSeconds + from * hopSeconds,
        endSeconds: firstSeconds + m * hopSeconds,
      });
      from = -1;
    }
  }
  return spans.sort((a, b) => b.endSeconds - b.startSeconds - (a.endSeconds - a.startSeconds));
}
