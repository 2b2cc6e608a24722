/** How one sample is written down. */
export type SampleEncoding = "pcm" | "float" | "a-law" | "mu-law";

/** What the fmt chunk says, checked. */
export interface WavFormat {
  /** 1 to 32. */
  readonly channelCount: number;
  /** 8,000 to 384,000 Hz. */
  readonly sampleRateHz: number;
  readonly encoding: SampleEncoding;
  /** Size of one sample of one channel: 1 to 4 bytes for PCM, 4 or 8 for floating point, 1 for G.711. */
  readonly bytesPerSample: number;
  /** RIFX files are big-endian throughout. */
  readonly littleEndian: boolean;
}
