import type { HeldBand } from "./HeldBand.js";

/** What one pass over all samples says of one channel. Amplitudes are relative to digital full scale (1). */
export interface ChannelSurvey {
  /** Largest sample. */
  readonly maximum: number;
  /** Smallest sample. */
  readonly minimum: number;
  /** Largest distance from the channel's own mean, so that an offset does not pass for sound. */
  readonly peak: number;
  /** Mean of all samples (offset). */
  readonly dcMean: number;
  /** Root mean square after the mean is taken off. */
  readonly rms: number;
  /** Values that can't be sound: NaN, infinities, magnitudes above 1000. They stay out of everything else. */
  readonly nonFiniteCount: number;
  readonly firstNonFiniteSeconds: number | null;
  /** Tops cut flat: see `PlateauDetector`. */
  readonly clippedRunCount: number;
  /** Samples that lie in those flat tops. */
  readonly clippedSampleCount: number;
  readonly firstClippedSeconds: number | null;
  /** Smallest step between neighbouring samples (one unit of a whole-number format); null where nothing moves. */
  readonly quantum: number | null;
  /** Mean power of each block, offset included; one entry a block. */
  readonly blockPower: Float32Array;
}

/** What one pass over all samples says of a recording; the input of the recording checks. */
export interface RecordingSurvey {
  readonly sampleRateHz: number;
  readonly channelCount: number;
  readonly frameCount: number;
  /** Frames in one block: 10 ms, rounded. The last block may be shorter. */
  readonly blockFrames: number;
  readonly channels: readonly ChannelSurvey[];
  /** 1 for each block in which any channel holds a value that can't be sound, else 0. */
  readonly blockNotFinite: Uint8Array;
  /** Correlation of the first two channels after their means are taken off; null with one channel or a silent one. */
  readonly leftRightCorrelation: number | null;
  /** The analysis band, offsets included, where it was kept. */
  readonly band?: HeldBand | null;
}
