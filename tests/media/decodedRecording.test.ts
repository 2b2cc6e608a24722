import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { decodedRecording, LONGEST_DECODED_SECONDS } from "../../src/media/decodedRecording.js";
import type { MediaFormat } from "../../src/media/MediaFormat.js";
import type { ByteSource } from "../../src/wav/ByteSource.js";
import { encodeWav } from "../../src/wav/encodeWav.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";

const flac: MediaFormat = { container: "FLAC", codec: "FLAC", promisedSeconds: null, isWhole: true };
const aac: MediaFormat = { container: "MP4", codec: "AAC", promisedSeconds: null, isWhole: true };
const samples = Float32Array.from({ length: 8000 }, (_, i) => Math.sin(i));

/** As it comes through a pipe: where nothing can be written afterwards, the size is unset. */
function piped(): ByteSource {
  const bytes = encodeWav([samples], 8000, "32f").slice();
  const at = bytes.findIndex((_, i) => String.fromCharCode(...bytes.subarray(i, i + 4)) === "data");
  bytes.fill(0xff, at + 4, at + 8);
  return memoryByteSource(bytes);
}

const reasonOf = (source: ByteSource) => {
  try {
    decodedRecording(source, aac, false);
    return "";
  } catch (error) {
    return error instanceof AnalysisError && error.is("media-unreadable") ? error.details.reason : error;
  }
};

describe("decodedRecording", () => {
  it("hands on the samples, and says nothing of the pipe they came through", () => {
    const recording = decodedRecording(piped(), flac, false);
    expect(recording.read(0, 8000)[0]).toEqual(samples);
    expect(recording.encoding).toEqual({ container: "FLAC", codec: "FLAC" });
    expect(recording.decodingNotes).toEqual([]);
  });

  it("notes a codec with loss, faults, a missing end, and sound that was promised", () => {
    const notes = (format: MediaFormat, hasFaults = false) =>
      decodedRecording(piped(), format, hasFaults).decodingNotes;
    expect(notes(aac)).toEqual([{ code: "lossy-codec", values: { container: "MP4", codec: "AAC" } }]);
    expect(notes(flac, true)).toEqual([{ code: "media-damaged", values: {} }]);
    expect(notes({ ...flac, isWhole: false })).toEqual([{ code: "media-damaged", values: {} }]);
    expect(notes({ ...flac, promisedSeconds: 3 })).toEqual([
      { code: "media-damaged", values: { promisedSeconds: 3, durationSeconds: 1 } },
    ]);
    // Half a second at this rate, 8 kHz, is what encoders may pad.
    expect(notes({ ...flac, promisedSeconds: 1.49 })).toEqual([]);
    expect(notes({ ...flac, promisedSeconds: 1.51 })).toHaveLength(1);
  });

  it("refuses what is no sound, and what is too long", () => {
    expect(reasonOf(memoryByteSource(new TextEncoder().encode("no sound at all, only words")))).toBe(
      "not-decoded",
    );
    const head = encodeWav([new Float32Array(8)], 8000, "16").slice(0, 44);
    const sizeBytes = 44 + 2 * 8000 * (LONGEST_DECODED_SECONDS + 1);
    head.fill(0xff, 40, 44);
    const long = {
      sizeBytes,
      read: (offset: number, length: number) => {
        const bytes = new Uint8Array(length);
        if (offset < head.length) bytes.set(head.subarray(offset, offset + length));
        return bytes;
      },
    };
    expect(reasonOf(long)).toBe("too-long");
    expect(reasonOf({ ...long, sizeBytes: sizeBytes - 2 * 8000 })).toBe("");
  });
});
