import type { AudioRecording, DecodingNote } from "../audio/AudioRecording.js";
import { AnalysisError } from "../errors.js";
import type { ByteSource } from "../wav/ByteSource.js";
import { openWav } from "../wav/openWav.js";
import { isLossy } from "./isLossy.js";
import type { MediaFormat } from "./MediaFormat.js";

/** The longest recording that is decoded, seconds; our policy. An hour of stereo takes 1.4 GB decoded. */
export const LONGEST_DECODED_SECONDS = 3600;

/** Less than this is no loss to a measurement. */
const LEAST_MISSING_SECONDS = 0.2;
/** Encoders pad the ends by less than this, and decoders take it off again (MP3: about 2,400). */
const PADDING_SAMPLES = 4000;

/**
 * A recording whose sound another program decoded and wrote down as WAV.
 *
 * @param source - that WAV, from a pipe, so that its sizes may be unset: they say nothing of the recorder
 * @param format - what the recording itself is written in
 * @param hasFaults - whether the other program complained on its way
 * @throws AnalysisError `media-unreadable` where what was written is no sound, or lasts longer than an hour
 */
export function decodedRecording(
  source: ByteSource,
  format: MediaFormat,
  hasFaults: boolean,
): AudioRecording {
  const { container, codec, promisedSeconds, isWhole } = format;
  const recording = opened(source, format);
  if (recording.durationSeconds > LONGEST_DECODED_SECONDS)
    throw new AnalysisError("media-unreadable", { reason: "too-long", container });
  const decodingNotes: DecodingNote[] = [];
  if (isLossy(codec)) decodingNotes.push({ code: "lossy-codec", values: { container, codec } });
  const { durationSeconds, sampleRateHz } = recording;
  const slackSeconds = Math.max(LEAST_MISSING_SECONDS, PADDING_SAMPLES / sampleRateHz);
  if (promisedSeconds !== null && durationSeconds < promisedSeconds - slackSeconds)
    decodingNotes.push({ code: "media-damaged", values: { promisedSeconds, durationSeconds } });
  else if (hasFaults || !isWhole) decodingNotes.push({ code: "media-damaged", values: {} });
  return { ...recording, encoding: { container, codec }, decodingNotes };
}

function opened(source: ByteSource, { container }: MediaFormat): AudioRecording {
  try {
    return openWav(source);
  } catch (error) {
    if (!(error instanceof AnalysisError) || error.is("file-unusable")) throw error;
    if (error.is("recording-empty") || error.is("wav-format-invalid")) throw error;
    throw new AnalysisError("media-unreadable", { reason: "not-decoded", container });
  }
}
