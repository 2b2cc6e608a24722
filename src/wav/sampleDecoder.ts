import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { A_LAW_TABLE, MU_LAW_TABLE } from "./g711Tables.js";
import type { WavFormat } from "./WavFormat.js";

/**
 * Decodes `count` frames, one sample of each channel after another, into the channels from index `to`.
 *
 * Integers are divided by the full scale of their container. Fewer valid bits stand at its top, so that nothing
 * depends on how many there are.
 */
export type SampleDecoder = (
  bytes: DataView,
  bytesPerSample: number,
  channels: readonly Float32Array[],
  to: number,
  count: number,
) => void;

/** The samples of one channel, `stride` bytes apart, the first at `from`. */
type ChannelDecoder = (
  bytes: DataView,
  from: number,
  stride: number,
  output: Float32Array,
  to: number,
  count: number,
) => void;

// One loop a format: a shared loop that calls a function for each sample is several times slower once it has met
// more than a few formats.
const unsigned8: ChannelDecoder = (bytes, from, stride, output, to, count) => {
  for (let i = to, at = from; i < to + count; i++, at += stride) {
    output[i] = (bytes.getUint8(at) - 0x80) / 0x80;
  }
};

const signed16: ChannelDecoder = (bytes, from, stride, output, to, count) => {
  for (let i = to, at = from; i < to + count; i++, at += stride) output[i] = bytes.getInt16(at) / 0x8000;
};

const signed24: ChannelDecoder = (bytes, from, stride, output, to, count) => {
  for (let i = to, at = from; i < to + count; i++, at += stride) {
    output[i] = (bytes.getInt16(at) * 0x100 + bytes.getUint8(at + 2)) / 0x800000;
  }
};

/** The two formats that most recorders write: by a kernel, in half of the time. */
function byKernel(name: "decode16" | "decode24"): SampleDecoder {
  return (bytes, bytesPerSample, channels, to, count) => {
    const stride = channels.length * bytesPerSample;
    const outAt = Math.ceil((count * stride) / 16) * 16;
    const at = kernels().scratch(outAt + count * Float32Array.BYTES_PER_ELEMENT, ScratchUser.decoding);
    const { functions, u8, f32 } = kernels();
    u8.set(new Uint8Array(bytes.buffer, bytes.byteOffset, count * stride), at);
    const first = (at + outAt) / Float32Array.BYTES_PER_ELEMENT;
    for (let c = 0; c < channels.length; c++) {
      functions[name](at + c * bytesPerSample, stride, at + outAt, count);
      channels[c].set(f32.subarray(first, first + count), to);
    }
  };
}

const signed32 =
  (littleEndian: boolean): ChannelDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getInt32(at, littleEndian) / 0x80000000;
    }
  };

const float32 =
  (littleEndian: boolean): ChannelDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getFloat32(at, littleEndian);
    }
  };

const float64 =
  (littleEndian: boolean): ChannelDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = bytes.getFloat64(at, littleEndian);
    }
  };

const tabulated =
  (table: Float32Array): ChannelDecoder =>
  (bytes, from, stride, output, to, count) => {
    for (let i = to, at = from; i < to + count; i++, at += stride) {
      output[i] = table[bytes.getUint8(at)]!;
    }
  };

/** The decoder for a format that has been checked. */
export function sampleDecoder(format: WavFormat): SampleDecoder {
  const { encoding, bytesPerSample, littleEndian } = format;
  if (encoding === "pcm" && littleEndian && bytesPerSample === 2) return byKernel("decode16");
  if (encoding === "pcm" && littleEndian && bytesPerSample === 3) return byKernel("decode24");
  return eachChannel(channelDecoder(format));
}

function channelDecoder({ encoding, bytesPerSample, littleEndian }: WavFormat): ChannelDecoder {
  if (encoding === "a-law") return tabulated(A_LAW_TABLE);
  if (encoding === "mu-law") return tabulated(MU_LAW_TABLE);
  if (encoding === "float") return bytesPerSample === 4 ? float32(littleEndian) : float64(littleEndian);
  if (bytesPerSample === 1) return unsigned8;
  if (bytesPerSample === 2) return signed16;
  return bytesPerSample === 3 ? signed24 : signed32(littleEndian);
}

function eachChannel(decode: ChannelDecoder): SampleDecoder {
  return (bytes, bytesPerSample, channels, to, count) => {
    for (let c = 0; c < channels.length; c++) {
      decode(bytes, c * bytesPerSample, channels.length * bytesPerSample, channels[c], to, count);
    }
  };
}
