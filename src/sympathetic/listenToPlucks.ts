import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording } from "../audio/checkRecording.js";
import type { Finding } from "../audio/Finding.js";
import { HeldBand } from "../audio/HeldBand.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { SurveyAccumulator } from "../audio/SurveyAccumulator.js";
import { AnalysisError } from "../errors.js";
import { soundingStretches } from "../pitch/soundingStretches.js";
import { trackPitch } from "../pitch/trackPitch.js";
import { decimationFactor } from "../signal/Decimator.js";
import { type ChannelSound, strongestChannel } from "../strings/strongestChannel.js";

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
  if (recording.frameCount === 0) throw new AnalysisError("recording-empty", { durationSeconds });
  if (durationSeconds > LONGEST_SECONDS) {
    throw new AnalysisError("value-out-of-range", {
      name: "takeSeconds",
      given: Math.round(durationSeconds),
      allowedMinimum: 0,
      allowedMaximum: LONGEST_SECONDS,
    });
  }
  const accumulator = new SurveyAccumulator(recording.sampleRateHz, recording.channelCount);
  const outputCount = Math.ceil(recording.frameCount / decimationFactor(recording.sampleRateHz));
  const band = HeldBand.forRecording(recording.channelCount, outputCount);
  const track = trackPitch(
    recording,
    (piece, share) => {
      accumulator.add(piece);
      onProgress(share);
    },
    (piece) => band?.add(piece),
  );
  const survey: RecordingSurvey = { ...accumulator.finish(), band };
  const nonFiniteCount = survey.channels.reduce((sum, channel) => sum + channel.nonFiniteCount, 0);
  if (nonFiniteCount >= survey.frameCount * survey.channelCount) {
    throw new AnalysisError("recording-not-finite", { nonFiniteCount });
  }
  if (survey.channels.every(({ peak }) => peak === 0)) {
    throw new AnalysisError("recording-silent", { durationSeconds });
  }
  const check = checkRecording(recording, survey, soundingStretches(track));
  const strongest = strongestChannel(recording, survey, { startSeconds: 0, endSeconds: durationSeconds }, 0);
  return {
    channels: [strongest, ...strongest.others],
    findings: check.findings.filter(({ code, severity }) => severity !== "info" && !OF_LEVELS.has(code)),
  };
}
