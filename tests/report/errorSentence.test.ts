import { describe, expect, it } from "vitest";
import { AnalysisError, type AnalysisErrorCode, type AnalysisErrorDetails } from "../../src/errors.js";
import { errorSentence } from "../../src/report/errorSentence.js";

type Examples = { readonly [C in AnalysisErrorCode]: readonly [AnalysisErrorDetails[C], readonly string[]] };

const hostile = "x\u001b[2J\u202e";

// One example a code, and what its sentence has to hold. The type makes a code without one a compile error.
const examples: Examples = {
  "wav-not-riff": [{ byteOffset: 0, found: hostile, sizeBytes: 12345 }, ["12,345", "RIFF", "Save"]],
  "wav-not-wave": [{ byteOffset: 8, found: "AVI " }, ["AVI", "byte 8", "WAVE"]],
  "wav-no-format": [{ byteOffset: 44 }, ["byte 44"]],
  "wav-format-too-short": [{ byteOffset: 12, sizeBytes: 14, neededBytes: 16 }, ["14 bytes", "at least 16"]],
  "wav-no-data": [{ byteOffset: 36 }, ["byte 36"]],
  "wav-codec-unsupported": [
    { byteOffset: 20, formatTag: 17, codec: "IMA ADPCM" },
    ["IMA ADPCM", "17", "PCM WAV", "16 or 24 bit"],
  ],
  "wav-format-invalid": [
    { byteOffset: 24, field: "sampleRateHz", given: 400, allowedMinimum: 8000, allowedMaximum: 384000 },
    ["400", "sample rate", "8,000", "384,000"],
  ],
  "recording-empty": [{ durationSeconds: 0 }, ["no sound"]],
  "recording-silent": [{ durationSeconds: 3.25 }, ["silence", "3.3 s", "microphone"]],
  "recording-not-finite": [{ nonFiniteCount: 48000 }, ["48,000"]],
  "value-out-of-range": [
    { name: "a4Hz", given: 20, allowedMinimum: 300, allowedMaximum: 600 },
    ["A4", "20", "300 to 600"],
  ],
  "note-name-invalid": [{ given: "H9" }, ["H9", "F#3"]],
  "instrument-invalid": [
    { line: 4, column: 7, path: "strings[2].note", problem: "H9 is no note" },
    ["line 4", "column 7", "strings[2].note", "H9 is no note"],
  ],
  "microphone-invalid": [
    { line: 7, problem: "not-rising" },
    ["line 7", "not higher than the one before", "100 -1.5"],
  ],
  "tuning-unknown": [{ given: "tuba", known: "alto, tenor" }, ["tuba", "alto, tenor", "gurdybench tunings"]],
  "string-unknown": [{ option: "capo", given: "C9", known: "C2, G2" }, ["--capo", "C9", "C2, G2"]],
  "string-repeated": [{ option: "sounding", given: "G2" }, ["--sounding", '"G2" twice']],
  "length-unknown": [{}, ["no vibrating length", "lengthMm"]],
  "capo-not-available": [{ string: "C4", given: 3, available: "2" }, ["C4", "3 semitones", "Possible: 2"]],
  "media-unreadable": [
    { reason: "codec-unsupported", container: "MP4", codec: hostile },
    ["M4A (MP4)", "not read here", "Save it as WAV"],
  ],
  "file-unusable": [
    { reason: "too-large", sizeBytes: 2000000, limitBytes: 1048576 },
    ["too large", "2,000,000", "1,048,576"],
  ],
  "output-unusable": [{ reason: "exists" }, ["is there already", "--force"]],
  "kernels-unavailable": [{ reason: "CompileError" }, ["CompileError", "WebAssembly", "Node 20"]],
  "unexpected-fault": [{ fault: "TypeError" }, ["TypeError", "report"]],
};

describe("errorSentence", () => {
  it("tells a device from a file that is there already", () => {
    const sentence = errorSentence(
      new AnalysisError("output-unusable", { reason: "not-regular" }),
      "/dev/full",
    );
    expect(sentence).toContain("/dev/full is not an ordinary file (a device, pipe or socket)");
    expect(sentence).not.toContain("already");
  });

  for (const [code, [details, needed]] of Object.entries(examples)) {
    it(`words ${code} with its numbers`, () => {
      const error = new AnalysisError(code as AnalysisErrorCode, details as never);
      const sentence = errorSentence(error, `${hostile}.wav`);
      for (const part of needed) expect(sentence).toContain(part);
      expect(sentence).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]|undefined|NaN/);
      expect(sentence).toMatch(/[.)]$|H9 is no note$/);
    });
  }

  it.each<readonly [AnalysisErrorDetails["media-unreadable"]["reason"], RegExp]>([
    ["no-sound", /holds no sound/],
    ["cut-off", /index is missing/],
    ["no-decoder", /install it \(https:\/\/ffmpeg\.org\), or save the recording as WAV/],
    ["codec-missing", /ffmpeg installed here lacks its codec/],
    ["damaged", /damaged or cut off/],
    ["crashed", /broke down/],
    ["stalled", /standstill/],
    ["too-slow", /took too long/],
    ["too-long", /an hour at most/],
    ["not-decoded", /is no sound/],
    ["no-room", /disk for temporary files/],
    ["not-started", /could not be started/],
  ])("says of a compressed recording in one line that it is not read: %s", (reason, needed) => {
    const sentence = errorSentence(
      new AnalysisError("media-unreadable", { reason, container: "OGG" }),
      "a.ogg",
    );
    expect(sentence).toMatch(/^a\.ogg is OGG[ ,].*[.)]$/);
    expect(sentence).toMatch(needed);
    expect(sentence).not.toMatch(/undefined|\n/);
  });

  it("names the file where it is about a file", () => {
    const missing = new AnalysisError("file-unusable", {
      reason: "missing",
      sizeBytes: null,
      limitBytes: null,
    });
    expect(errorSentence(missing, "drones.wav")).toMatch(/^drones\.wav was not found\./);
    expect(errorSentence(missing)).toMatch(/^The file was not found\./);
  });

  it("tells an empty file from one of another kind", () => {
    const empty = new AnalysisError("wav-not-riff", { byteOffset: 0, found: "", sizeBytes: 0 });
    expect(errorSentence(empty, "a.wav")).toContain("a.wav is empty (0 bytes)");
  });

  it("does not list the strings of no instrument", () => {
    const unknown = new AnalysisError("string-unknown", { option: "anchor", given: "C2", known: "" });
    expect(errorSentence(unknown)).toBe(
      '--anchor names a string "C2", but no instrument and no tuning is named.',
    );
  });

  it("says what to do where a string has no capo", () => {
    const none = new AnalysisError("capo-not-available", { string: "C2", given: 2, available: "none" });
    expect(errorSentence(none)).toContain("add capo: [2] to the string in the instrument file");
  });
});
