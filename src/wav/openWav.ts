import type { AudioRecording, DecodingNote } from "../audio/AudioRecording.js";
import { AnalysisError } from "../errors.js";
import type { ByteSource } from "./ByteSource.js";
import { locateChunks } from "./locateChunks.js";
import { sampleDecoder } from "./sampleDecoder.js";
import { viewOf } from "./viewOf.js";
import type { SampleEncoding } from "./WavFormat.js";

// Big enough that calls to the source cost nothing, small enough to stay in the processor's cache.
const PIECE_BYTES = 1 << 16;

const CODEC_NAMES: Readonly<Record<SampleEncoding, string>> = {
  pcm: "PCM",
  float: "floating point",
  "a-law": "A-law",
  "mu-law": "mu-law",
};

/**
 * Opens a WAV recording: finds format and samples now, decodes samples only when they are read.
 *
 * Read are RIFF, RIFX, RF64 and BW64 with PCM of 1 to 32 bits (8 and fewer unsigned, more signed), 32- and 64-bit
 * floating point, and A-law and mu-law (ITU-T G.711), each also as WAVE_FORMAT_EXTENSIBLE; 1 to 32 channels,
 * 8 to 384 kHz. Valid bits that are fewer than the container's stand at its top (Microsoft,
 * WAVEFORMATEXTENSIBLE), so that samples written at its bottom instead come out too quiet. Sources: Multimedia
 * Programming Interface and Data Specifications 1.0 (IBM and Microsoft, 1991); EBU Tech 3306; ITU-R BS.2088.
 *
 * The decoding is our own because a package that was measured, wavefile 11.0.0, reads a file only as a whole
 * (5 s and 650 MB for ten minutes of 24-bit stereo at 48 kHz), reads floating point and A-law in
 * WAVE_FORMAT_EXTENSIBLE as integers, and hangs on a damaged cue chunk; it serves for writing (`encodeWav`).
 * Here the same ten minutes, read a second at a time, take 0.25 s (Node 20).
 *
 * Memory is one piece of 64 KiB and the arrays that `read` returns. Frames asked for beyond the ends are left out.
 *
 * @throws AnalysisError `wav-not-riff`, `wav-not-wave`, `wav-no-format`, `wav-format-too-short`, `wav-format-invalid`,
 * `wav-codec-unsupported`, `wav-no-data`, `recording-empty`
 * @example
 * ```ts
 * const recording = openWav(memoryByteSource(bytes));
 * const [left] = recording.read(0, recording.sampleRateHz); // the first second
 * ```
 */
export function openWav(source: ByteSource): AudioRecording {
  const { format, data } = locateChunks(source);
  const { channelCount, sampleRateHz, bytesPerSample } = format;
  const frameBytes = channelCount * bytesPerSample;
  const frameTotal = Math.floor(data.sizeBytes / frameBytes);
  if (frameTotal === 0) throw new AnalysisError("recording-empty", { durationSeconds: 0 });

  const decodingNotes: DecodingNote[] = [];
  const extraBytes = data.sizeBytes % frameBytes;
  if (data.note) decodingNotes.push(data.note);
  else if (extraBytes > 0) {
    // A file that was cut off ends anywhere; only a whole one that does is worth a note of its own.
    const byteOffset = data.byteOffset + frameTotal * frameBytes;
    decodingNotes.push({ code: "wav-partial-frame", values: { byteOffset, extraBytes, frameBytes } });
  }

  const decode = sampleDecoder(format);
  const pieceFrames = Math.max(1, Math.floor(PIECE_BYTES / frameBytes));
  const clamp = (frame: number) => Math.min(frameTotal, Math.max(0, Math.trunc(frame)));

  const read = (startFrame: number, frameCount: number, into?: readonly Float32Array[]): Float32Array[] => {
    const start = clamp(startFrame);
    const wanted = Math.max(0, clamp(startFrame + frameCount) - start);
    const channels = Array.from({ length: channelCount }, (_, index) => {
      const given = into?.[index];
      return given !== undefined && given.length >= wanted
        ? given.subarray(0, wanted)
        : new Float32Array(wanted);
    });
    let done = 0;
    while (done < wanted) {
      const askedFrames = Math.min(pieceFrames, wanted - done);
      const view = viewOf(source, data.byteOffset + (start + done) * frameBytes, askedFrames * frameBytes);
      const frames = Math.floor(view.byteLength / frameBytes);
      if (frames === 0) break; // the source has become shorter since it was opened
      decode(view, bytesPerSample, channels, done, frames);
      done += frames;
    }
    return done === wanted ? channels : channels.map((channel) => channel.subarray(0, done));
  };

  const durationSeconds = frameTotal / sampleRateHz;
  const encoding = { container: "WAV", codec: CODEC_NAMES[format.encoding] };
  return {
    sampleRateHz,
    channelCount,
    frameCount: frameTotal,
    durationSeconds,
    encoding,
    isBounded: format.encoding !== "float",
    decodingNotes,
    read,
  };
}
