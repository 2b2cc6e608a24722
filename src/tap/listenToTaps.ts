import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording } from "../audio/checkRecording.js";
import type { Finding, FindingCode } from "../audio/Finding.js";
import type { ChannelSurvey, RecordingSurvey } from "../audio/RecordingSurvey.js";
import { readAnalysisBand } from "../audio/readAnalysisBand.js";
import { refuseLonger } from "../audio/refuseLonger.js";
import { surveyRecording } from "../audio/surveyRecording.js";
import { AnalysisError } from "../errors.js";
import { decimationFactor } from "../signal/Decimator.js";
import { findTaps, type TapOnset } from "./findTaps.js";

/** A take of taps in the analysis band, in the channel that stands highest over its noise. */
export interface TapSound {
  readonly samples: Float64Array;
  readonly rateHz: number;
  readonly onsets: readonly TapOnset[];
  /** For each onset: whether the sound is cut off at the limit of the recorder within it. */
  readonly isClipped: readonly boolean[];
  readonly findings: readonly Finding[];
}

/** What of the checks of a recording matters to taps; the others speak of strings and of level. */
const OF_TAPS: ReadonlySet<FindingCode> = new Set<FindingCode>([
  "clipping",
  "mains-hum",
  "high-pass",
  "gain-control",
  "not-finite",
  "truncated",
  "size-unset",
  "too-quiet",
  "channel-silent",
]);
/** Sixty taps at five seconds. */
const LONGEST_SECONDS = 300;
/** A tap and what is strong of its ringing. */
const CLIP_SECONDS = 0.12;
const TAP_SECONDS = 0.4;
/** As near to the channel's extreme as a sample of a flat top is. */
const AT_LIMIT = 0.9995;
const FLAT_SAMPLES = 3;

/**
 * Reads a recording, checks it and finds the taps in it.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for more than
 * five minutes
 */
export function listenToTaps(recording: AudioRecording, onProgress?: (done: number) => void): TapSound {
  const { durationSeconds, frameCount } = recording;
  if (frameCount === 0) throw new AnalysisError("recording-empty", { durationSeconds });
  refuseLonger(recording, LONGEST_SECONDS, "tapSeconds");
  const survey = surveyRecording(recording, (share) => onProgress?.(0.2 * share));
  const nonFiniteCount = survey.channels.reduce((sum, channel) => sum + channel.nonFiniteCount, 0);
  if (nonFiniteCount >= frameCount * survey.channelCount) {
    throw new AnalysisError("recording-not-finite", { nonFiniteCount });
  }
  if (survey.channels.every(({ peak }) => peak === 0)) {
    throw new AnalysisError("recording-silent", { durationSeconds });
  }
  const channel = clearestChannel(survey);
  const band = readAnalysisBand(recording, survey, { startSeconds: 0, endSeconds: durationSeconds });
  const samples = Float64Array.from(band[channel]!);
  const rateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const onsets = findTaps(samples, rateHz);
  const spans = onsets.map(({ index }) => ({
    startSeconds: index / rateHz,
    endSeconds: Math.min(durationSeconds, index / rateHz + TAP_SECONDS),
  }));
  const check = checkRecording(recording, survey, spans);
  return {
    samples,
    rateHz,
    onsets,
    isClipped: spans.map(({ startSeconds }) =>
      isCut(recording, channel, survey.channels[channel]!, startSeconds),
    ),
    findings: check.findings.filter(
      ({ code, severity }) => OF_TAPS.has(code) && (severity !== "info" || code === "truncated"),
    ),
  };
}

/** The channel whose peak stands highest over its quiet moments. */
function clearestChannel({ channels }: RecordingSurvey): number {
  const clearness = channels.map(({ peak, blockPower, dcMean }) => {
    const ranked = blockPower.map((power) => Math.max(0, power - dcMean * dcMean)).sort();
    return peak === 0 ? -1 : (peak * peak) / (ranked[ranked.length >> 2]! + 1e-12);
  });
  return clearness.indexOf(Math.max(...clearness));
}

function isCut(
  recording: AudioRecording,
  channel: number,
  survey: ChannelSurvey,
  atSeconds: number,
): boolean {
  if (survey.clippedRunCount === 0) return false;
  const from = Math.max(0, Math.round((atSeconds - 0.01) * recording.sampleRateHz));
  const samples = recording.read(from, Math.round(CLIP_SECONDS * recording.sampleRateHz))[channel]!;
  let run = 0;
  for (const value of samples) {
    const isAtLimit =
      (survey.maximum > 0 && value >= AT_LIMIT * survey.maximum) ||
      (survey.minimum < 0 && value <= AT_LIMIT * survey.minimum);
    run = isAtLimit ? run + 1 : 0;
    if (run >= FLAT_SAMPLES) return true;
  }
  return false;
}
