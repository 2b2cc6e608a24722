import { formatInvalid } from "./formatInvalid.js";
import type { SampleEncoding } from "./WavFormat.js";

const WIDEST_BYTES = { pcm: 4, float: 8, "a-law": 1, "mu-law": 1 } as const;

/** The container sizes in bytes that fit the bits per sample (0: the fmt chunk does not say). */
function fittingSizes(encoding: SampleEncoding, bits: number): readonly number[] {
  // G.711 codes are always eight bits; some writers put the 16 bits there that they stand for.
  if (encoding === "a-law" || encoding === "mu-law") return [1];
  if (encoding === "float") return bits === 0 ? [4, 8] : [bits / 8];
  if (bits === 0) return [1, 2, 3, 4];
  const smallest = Math.ceil(bits / 8);
  return smallest === 3 ? [3, 4] : [smallest];
}

/**
 * Size of one sample of one channel, from nBlockAlign; wBitsPerSample has to agree with it. More than 16 and up to
 * 24 bits may also be in four bytes.
 *
 * @throws AnalysisError `wav-format-invalid`
 */
export function bytesPerSample(
  encoding: SampleEncoding,
  channelCount: number,
  view: DataView,
  bodyOffset: number,
  littleEndian: boolean,
): number {
  const bits = view.byteLength >= 16 ? view.getUint16(14, littleEndian) : 0;
  const widestBits = 8 * WIDEST_BYTES[encoding];
  if (encoding === "float" && bits !== 0 && bits !== 32 && bits !== 64) {
    throw formatInvalid(bodyOffset + 14, "bitsPerSample", bits, 32, widestBits);
  }
  if (encoding === "pcm" && bits > widestBits) {
    throw formatInvalid(bodyOffset + 14, "bitsPerSample", bits, 1, widestBits);
  }
  const sizes = fittingSizes(encoding, bits);
  const blockAlign = view.getUint16(12, littleEndian);
  const containerBytes = blockAlign / channelCount;
  if (!sizes.includes(containerBytes)) {
    const allowedMinimum = channelCount * Math.min(...sizes);
    const allowedMaximum = channelCount * Math.max(...sizes);
    throw formatInvalid(bodyOffset + 12, "blockAlign", blockAlign, allowedMinimum, allowedMaximum);
  }
  return containerBytes;
}
