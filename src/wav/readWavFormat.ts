import { AnalysisError } from "../errors.js";
import type { ByteSource } from "./ByteSource.js";
import { bytesPerSample } from "./bytesPerSample.js";
import { codecName } from "./codecName.js";
import { formatInvalid } from "./formatInvalid.js";
import { hexadecimal, subFormatTag } from "./subFormatTag.js";
import { viewOf } from "./viewOf.js";
import type { SampleEncoding, WavFormat } from "./WavFormat.js";

const ENCODINGS = new Map<number, SampleEncoding>([
  [0x0001, "pcm"],
  [0x0003, "float"],
  [0x0006, "a-law"],
  [0x0007, "mu-law"],
]);
const EXTENSIBLE = 0xfffe;
const SHORTEST_FORMAT_BYTES = 14; // WAVEFORMAT, without wBitsPerSample
const EXTENSIBLE_FORMAT_BYTES = 40;

/**
 * Reads and checks a fmt chunk of any length from 14 bytes up. nAvgBytesPerSec and cbSize are not used: recorders
 * often have them wrong, and nothing depends on them.
 *
 * @throws AnalysisError `wav-format-too-short`, `wav-codec-unsupported`, `wav-format-invalid`
 */
export function readWavFormat(
  source: ByteSource,
  bodyOffset: number,
  sizeBytes: number,
  littleEndian: boolean,
): WavFormat {
  const view = viewOf(source, bodyOffset, Math.min(sizeBytes, EXTENSIBLE_FORMAT_BYTES));
  const need = (neededBytes: number) => {
    if (view.byteLength >= neededBytes) return;
    throw new AnalysisError("wav-format-too-short", {
      byteOffset: bodyOffset,
      sizeBytes: view.byteLength,
      neededBytes,
    });
  };
  need(SHORTEST_FORMAT_BYTES);
  let formatTag: number = view.getUint16(0, littleEndian);
  const extensible = formatTag === EXTENSIBLE;
  if (extensible) {
    need(EXTENSIBLE_FORMAT_BYTES);
    const tag = subFormatTag(view, 24, littleEndian);
    if (tag === null) {
      const codec = `sub-format ${hexadecimal(view, 24, 16)}`;
      throw new AnalysisError("wav-codec-unsupported", { byteOffset: bodyOffset + 24, formatTag, codec });
    }
    formatTag = tag;
  }
  const encoding = ENCODINGS.get(formatTag);
  if (!encoding) {
    const codec = codecName(formatTag);
    throw new AnalysisError("wav-codec-unsupported", { byteOffset: bodyOffset, formatTag, codec });
  }
  const channelCount = view.getUint16(2, littleEndian);
  if (channelCount < 1 || channelCount > 32) {
    throw formatInvalid(bodyOffset + 2, "channelCount", channelCount, 1, 32);
  }
  const sampleRateHz = view.getUint32(4, littleEndian);
  if (sampleRateHz < 8000 || sampleRateHz > 384_000) {
    throw formatInvalid(bodyOffset + 4, "sampleRateHz", sampleRateHz, 8000, 384_000);
  }
  const containerBytes = bytesPerSample(encoding, channelCount, view, bodyOffset, littleEndian);
  if (extensible && encoding === "pcm") {
    // 0 is what some writers leave; it stands for all bits of the container.
    const validBits = view.getUint16(18, littleEndian);
    if (validBits > 8 * containerBytes) {
      throw formatInvalid(bodyOffset + 18, "validBits", validBits, 0, 8 * containerBytes);
    }
  }
  return { channelCount, sampleRateHz, encoding, bytesPerSample: containerBytes, littleEndian };
}
