import { AnalysisError } from "../errors.js";

const HEADER_BYTES = 58;
const IEEE_FLOAT = 3;
const BYTES = 4;
/** RIFF counts its bytes in 32 bits. */
const MOST_BYTES = 2 ** 32 - 1;

/**
 * The parts of a WAV file that holds recorded blocks as they are: 32-bit floating point, so that nothing is rounded or cut.
 *
 * One part for the head and one for each block, so that a long recording is not copied into one array: a page hands them to a
 * `Blob` as they are, a program writes them one after another.
 *
 * @param blocks - in order of time; one array a channel each, all of one length within a block, amplitude +-1 at full scale
 * @param sampleRateHz - a whole number from 8,000 to 384,000
 * @throws AnalysisError `recording-empty` without samples, `value-out-of-range` for the rate, for channels that are not the same number
 * in all blocks (1 to 32) or not of one length, and for more than a WAV file holds (4 GiB)
 * @example
 * ```ts
 * const file = new Blob(wavOfBlocks(blocks, 48000), { type: "audio/wav" });
 * ```
 */
export function wavOfBlocks(
  blocks: readonly (readonly Float32Array[])[],
  sampleRateHz: number,
): Uint8Array<ArrayBuffer>[] {
  requireRange("sampleRateHz", sampleRateHz, 8000, 384_000);
  const channelCount = blocks[0]?.length ?? 1;
  requireRange("channelCount", channelCount, 1, 32);
  let frameCount = 0;
  for (const block of blocks) {
    requireRange("channels.length", block.length, channelCount, channelCount);
    for (const { length } of block) requireRange("channel.length", length, block[0].length, block[0].length);
    frameCount += block[0].length;
  }
  if (frameCount === 0) throw new AnalysisError("recording-empty", { durationSeconds: 0 });
  const dataBytes = frameCount * channelCount * BYTES;
  requireRange("frameCount", frameCount, 1, Math.floor((MOST_BYTES - HEADER_BYTES) / (channelCount * BYTES)));
  return [head(channelCount, sampleRateHz, frameCount, dataBytes), ...blocks.map(interleaved)];
}

/** RIFF, fmt with the extension that floating point asks for, fact, and the head of data (Multimedia Programming Interface 1.0 and its 1994 update; from memory). */
function head(
  channelCount: number,
  sampleRateHz: number,
  frameCount: number,
  dataBytes: number,
): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(HEADER_BYTES);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string) => {
    for (let i = 0; i < value.length; i++) view.setUint8(at + i, value.charCodeAt(i));
  };
  text(0, "RIFF");
  view.setUint32(4, HEADER_BYTES - 8 + dataBytes, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 18, true);
  view.setUint16(20, IEEE_FLOAT, true);
  view.setUint16(22, channelCount, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, sampleRateHz * channelCount * BYTES, true);
  view.setUint16(32, channelCount * BYTES, true);
  view.setUint16(34, 8 * BYTES, true);
  text(38, "fact");
  view.setUint32(42, 4, true);
  view.setUint32(46, frameCount, true);
  text(50, "data");
  view.setUint32(54, dataBytes, true);
  return bytes;
}

/** Samples of all channels in turn, lowest byte first whatever the machine. */
function interleaved(block: readonly Float32Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(block[0].length * block.length * BYTES);
  const view = new DataView(bytes.buffer);
  for (const [c, channel] of block.entries()) {
    for (let i = 0; i < channel.length; i++) {
      view.setFloat32((i * block.length + c) * BYTES, channel[i], true);
    }
  }
  return bytes;
}

function requireRange(name: string, given: number, allowedMinimum: number, allowedMaximum: number): void {
  if (Number.isInteger(given) && given >= allowedMinimum && given <= allowedMaximum) return;
  throw new AnalysisError("value-out-of-range", { name, given, allowedMinimum, allowedMaximum });
}
