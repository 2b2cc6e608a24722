import { A_LAW_TABLE, MU_LAW_TABLE } from "./g711Tables.js";
import type { WavFormat } from "./WavFormat.js";

/**
 * Decodes `count` samples that are `stride` bytes apart, the first at `from`, into `output` from index `to`.
 *
 * Integers are divided by the full scale of their container. Fewer valid bits stand at its top, so that nothing
 * depends on how many there are.
 */
export type SampleDecoder = (
  bytes: DataView,
  from: number,
  stride: number,
  output: Float32Array,
  to: number,
  count: number,
) => void;

// One loop a format: a shared loop that calls a function for each sample is several times slower once it has met
// more than a few formats.
const unsigned8: SampleDecoder = (bytes, from, stride, output, to, count) => {
  for (let i = to, at = from; i < to + count; i++, at += stride) {
    output[i] = (bytes.getUint8(at) - 0x80) / 0x80;
  }
};

const signed16 =
  (littleEndian: boolean): SampleDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getInt16(at, littleEndian) / 0x8000;
    }
  };

const signed24 = (littleEndian: boolean): SampleDecoder => {
  const high = littleEndian ? 1 : 0;
  const low = littleEndian ? 0 : 2;
  return (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      const value = bytes.getInt16(at + high, littleEndian) * 0x100 + bytes.getUint8(at + low);
      output[i] = value / 0x800000;
    }
  };
};

const signed32 =
  (littleEndian: boolean): SampleDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getInt32(at, littleEndian) / 0x80000000;
    }
  };

const float32 =
  (littleEndian: boolean): SampleDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getFloat32(at, littleEndian);
    }
  };

const float64 =
  (littleEndian: boolean): SampleDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getFloat64(at, littleEndian);
    }
  };

const tabulated =
  (table: Float32Array): SampleDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = table[bytes.getUint8(at)]!;
    }
  };

/** The decoder for a format that has been checked. */
export function sampleDecoder(format: WavFormat): SampleDecoder {
  const { encoding, bytesPerSample, littleEndian } = format;
  if (encoding === "a-law") return tabulated(A_LAW_TABLE);
  if (encoding === "mu-law") return tabulated(MU_LAW_TABLE);
  if (encoding === "float") return bytesPerSample === 4 ? float32(littleEndian) : float64(littleEndian);
  if (bytesPerSample === 1) return unsigned8;
  if (bytesPerSample === 2) return signed16(littleEndian);
  return bytesPerSample === 3 ? signed24(littleEndian) : signed32(littleEndian);
}
