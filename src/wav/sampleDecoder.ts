import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
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

const signed16 = (littleEndian: boolean): SampleDecoder =>
  littleEndian
    ? byKernel("decode16", 2)
    : (bytes, from, stride, output, to, count) => {
        for (let i = to, at = from; i < to + count; i++, at += stride)
          output[i] = bytes.getInt16(at) / 0x8000;
      };

const signed24 = (littleEndian: boolean): SampleDecoder =>
  littleEndian
    ? byKernel("decode24", 3)
    : (bytes, from, stride, output, to, count) => {
        for (let i = to, at = from; i < to + count; i++, at += stride) {
          output[i] = (bytes.getInt16(at) * 0x100 + bytes.getUint8(at + 2)) / 0x800000;
        }
      };

/** The two formats that most recorders write: by a kernel, in half of the time. */
function byKernel(name: "decode16" | "decode24", bytesPerSample: number): SampleDecoder {
  return (bytes, from, stride, output, to, count) => {
    const used = count > 0 ? (count - 1) * stride + bytesPerSample : 0;
    const outAt = Math.ceil(used / 16) * 16;
    const at = kernels().scratch(outAt + count * output.BYTES_PER_ELEMENT, ScratchUser.decoding);
    const { functions, u8, f32 } = kernels();
    u8.set(new Uint8Array(bytes.buffer, bytes.byteOffset + from, used), at);
    functions[name](at, stride, at + outAt, count);
    const first = (at + outAt) / output.BYTES_PER_ELEMENT;
    output.set(f32.subarray(first, first + count), to);
  };
}

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
