/** A stretch of one channel after decimation; sample i stands at `firstSeconds + i / sampleRateHz` of the recording. */
export interface AnalysisSegment {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly firstSeconds: number;
}
