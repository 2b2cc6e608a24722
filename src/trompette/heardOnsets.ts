import type { AudioRecording } from "../audio/AudioRecording.js";
import type { Band } from "./BandCourse.js";
import type { FineStroke } from "./FineStroke.js";
import type { FoundStroke } from "./findStrokes.js";
import { fineCourse } from "./fineCourse.js";
import { firstKnocks, type HeardOnset } from "./firstKnocks.js";

const BEFORE_SECONDS = 0.06;
const AFTER_SECONDS = 0.085;

/**
 * The onset of each buzz as it is heard: the first knock of at least half the usual amplitude (of a buzz without separate knocks, where
 * its amplitude passes half), in courses of 3 ms frames about the strokes found.
 *
 * @param strokes - of the wheel, in order of time, at least one
 */
export function heardOnsets(
  recording: AudioRecording,
  bands: readonly Band[],
  strokes: readonly FoundStroke[],
  stringHz: number,
): HeardOnset[] {
  const known = strokes.map(
    ({ onsetSeconds, withinSeconds, endSeconds }, i): FineStroke => ({
      strokeSeconds: onsetSeconds,
      withinSeconds,
      endSeconds: endSeconds - onsetSeconds,
      endBeforeSeconds: (strokes[i - 1]?.endSeconds ?? Number.NEGATIVE_INFINITY) - onsetSeconds,
      course: fineCourse(recording, bands, onsetSeconds - BEFORE_SECONDS, onsetSeconds + AFTER_SECONDS),
      knockSeconds: 0,
      earliestSeconds: -withinSeconds,
    }),
  );
  return firstKnocks(known, stringHz);
}
