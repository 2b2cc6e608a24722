import type { AudioRecording } from "../audio/AudioRecording.js";
import { decimatedPieces } from "../audio/decimatedPieces.js";
import { HeldBand } from "../audio/HeldBand.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { SurveyAccumulator } from "../audio/SurveyAccumulator.js";
import { decimationFactor } from "../signal/Decimator.js";

/** A band that is to be read ahead. */
export interface BandToFill {
  /** One array a channel, as long as the band will be. */
  readonly channels: readonly Float32Array[];
  /**
   * Reads the recording once, a piece at each step, fills the band and surveys the recording. Call once. Each step gives the number of samples of
   * every channel that are there.
   */
  fill(): Generator<number, RecordingSurvey>;
}

/**
 * Room for the analysis band of a recording that one thread reads while another tracks it.
 *
 * @param memory - gives memory that both threads see
 * @returns null where the recording is too long to keep its band
 */
export function bandToFill(
  recording: AudioRecording,
  memory: (byteLength: number) => ArrayBufferLike,
): BandToFill | null {
  const { sampleRateHz, channelCount, frameCount } = recording;
  const band = HeldBand.forRecording(
    channelCount,
    Math.ceil(frameCount / decimationFactor(sampleRateHz)),
    memory,
  );
  if (band === null || frameCount === 0) return null;
  return {
    channels: band.channels,
    fill: function* () {
      const accumulator = new SurveyAccumulator(sampleRateHz, channelCount);
      const pieces = decimatedPieces(
        recording,
        (piece) => accumulator.add(piece),
        (piece) => band.add(piece),
      );
      while (!pieces.next().done) yield band.filledCount;
      yield band.filledCount;
      return accumulator.finish();
    },
  };
}
