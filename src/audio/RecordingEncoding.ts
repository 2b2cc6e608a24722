/** How the sound of a recording was written down in its file. */
export interface RecordingEncoding {
  /** `WAV`, `MP4` (which M4A is), `MP3`, `FLAC` or `OGG`, by the file's bytes and not by its name. */
  readonly container: string;
  /** `PCM`, `floating point`, `A-law`, `mu-law`, `AAC`, `ALAC`, `MP3`, `FLAC`, `Vorbis`, `Opus` or `AMR`. */
  readonly codec: string;
}
