import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording } from "../audio/checkRecording.js";
import type { Finding } from "../audio/Finding.js";
import { refuseLonger } from "../audio/refuseLonger.js";
import { soundingStretches } from "../pitch/soundingStretches.js";
import { type ChannelSound, strongestChannel } from "../strings/strongestChannel.js";
import { surveyedTrack } from "../strings/surveyedTrack.js";

/** The sound of plucked strings, and what is to be said of the recording. */
export interface PluckSound {
  /** The channels that are no copies of each other, the strongest first. */
  readonly channels: readonly ChannelSound[];
  readonly findings: readonly Finding[];
}

/** What only the levels of bowed strings suffer from. */
const OF_LEVELS: ReadonlySet<string> = new Set([
  "dc-offset",
  "noise-unknown",
  "high-pass",
  "high-pass-open",
  "gain-control-open",
  "channel-difference",
]);
/** 60 strings plucked three times at 3 s each are 9 minutes. */
const LONGEST_SECONDS = 600;

/**
 * Reads a recording once, checks it, and keeps it in the analysis band.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for more than
 * ten minutes
 */
export function listenToPlucks(recording: AudioRecording, onProgress: (done: number) => void): PluckSound {
  const { durationSeconds } = recording;
  refuseLonger(recording, LONGEST_SECONDS, "takeSeconds");
  const { survey, track } = surveyedTrack(recording, onProgress);
  const check = checkRecording(recording, survey, soundingStretches(track));
  const strongest = strongestChannel(recording, survey, { startSeconds: 0, endSeconds: durationSeconds }, 0);
  return {
    channels: [strongest, ...strongest.others],
    findings: check.findings.filter(({ code, severity }) => severity !== "info" && !OF_LEVELS.has(code)),
  };
}
