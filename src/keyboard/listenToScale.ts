import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording } from "../audio/checkRecording.js";
import type { Finding } from "../audio/Finding.js";
import type { TimeSpan } from "../audio/findPauses.js";
import { refuseLonger } from "../audio/refuseLonger.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { soundingStretches } from "../pitch/soundingStretches.js";
import { strongestChannel } from "../strings/strongestChannel.js";
import { surveyedTrack } from "../strings/surveyedTrack.js";

/** The sound of a scale, from its first moment to its last. */
export interface ScaleSound {
  /** Null where nothing sounds. */
  readonly span: TimeSpan | null;
  /** The channels that are no copies of each other, the strongest first. */
  readonly channels: readonly AnalysisSegment[];
  readonly findings: readonly Finding[];
}

/** What only levels suffer from: a scale is read for its pitch. */
const OF_LEVELS: ReadonlySet<string> = new Set([
  "dc-offset",
  "noise-unknown",
  "high-pass",
  "high-pass-open",
  "gain-control",
  "gain-control-open",
  "channel-difference",
]);
const MARGIN_SECONDS = 0.3;
/** A scale of 60 keys up and down at 1.5 s a key is 3 minutes. */
const LONGEST_SECONDS = 600;

/**
 * Reads a recording once, checks it, and keeps what sounds in it.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for more than
 * ten minutes
 */
export function listenToScale(recording: AudioRecording, onProgress: (done: number) => void): ScaleSound {
  refuseLonger(recording, LONGEST_SECONDS, "scaleSeconds");
  const { survey, track } = surveyedTrack(recording, onProgress);
  const sounding = soundingStretches(track);
  const check = checkRecording(recording, survey, sounding);
  const findings = check.findings.filter(({ code, severity }) => severity !== "info" && !OF_LEVELS.has(code));
  const first = sounding[0];
  const last = sounding.at(-1);
  if (first === undefined || last === undefined) return { span: null, channels: [], findings };
  const span = { startSeconds: first.startSeconds, endSeconds: last.endSeconds };
  const strongest = strongestChannel(recording, survey, span, MARGIN_SECONDS);
  const channels = [strongest, ...strongest.others].map(({ segment }) => segment);
  return { span, channels, findings };
}
