import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { SurveyAccumulator } from "../../src/audio/SurveyAccumulator.js";
import { trackPitch } from "../../src/pitch/trackPitch.js";
import { median } from "../../src/signal/median.js";
import type { MeasuredPassage, MixedPassage } from "../../src/strings/MeasuredPassage.js";
import { measurePassage } from "../../src/strings/measurePassage.js";

/**
 * Reads a given segment as the command reads a steady passage: survey and frame-wise track in one pass, the track's
 * median over the segment as the start, then the passage's own measurement.
 */
export function readSegment(
  recording: AudioRecording,
  startSeconds: number,
  endSeconds: number,
): MeasuredPassage | MixedPassage | null {
  const accumulator = new SurveyAccumulator(recording.sampleRateHz, recording.channelCount);
  const track = trackPitch(recording, (piece) => accumulator.add(piece));
  const voiced = track.frequencyHz
    .subarray(Math.round(startSeconds / track.hopSeconds), Math.floor(endSeconds / track.hopSeconds) + 1)
    .filter((frequencyHz) => frequencyHz > 0);
  return measurePassage(
    recording,
    accumulator.finish(),
    {
      startSeconds,
      endSeconds,
      soundStartSeconds: startSeconds,
      soundEndSeconds: endSeconds,
      frequencyHz: median(voiced),
    },
    [],
  );
}
