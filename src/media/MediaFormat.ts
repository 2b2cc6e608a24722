/** Container of a recording that is not WAV, told by its first bytes. `MP4` is what M4A files are. */
export type MediaContainer = "MP4" | "MP3" | "FLAC" | "OGG";

/** A way of compressing sound that is let through to the decoder. */
export type MediaCodec = "AAC" | "ALAC" | "AMR" | "FLAC" | "MP3" | "Opus" | "PCM" | "Vorbis";

/** What a recording that is not WAV is written in. */
export interface MediaFormat {
  readonly container: MediaContainer;
  readonly codec: MediaCodec;
  /** How much sound the file says it holds; null where it does not say so at its beginning. */
  readonly promisedSeconds: number | null;
  /** False where its end is missing for sure. */
  readonly isWhole: boolean;
}
