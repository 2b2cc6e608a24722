/**
 * What each kind of failure carries: what was given, what is allowed, and where (byte offset, line, column).
 *
 * Codes are stable; the sentence a person reads is made from them in `report/`.
 */
export interface AnalysisErrorDetails {
  /** The file does not begin with RIFF, RIFX, RF64 or BW64. `found` is its first four bytes, printable. */
  "wav-not-riff": { byteOffset: number; found: string; sizeBytes: number };
  /** A RIFF file of another form (AVI, WEBP, ...). */
  "wav-not-wave": { byteOffset: number; found: string };
  /** No readable fmt chunk before the end of the file. */
  "wav-no-format": { byteOffset: number };
  /** The fmt chunk is shorter than its format needs. */
  "wav-format-too-short": { byteOffset: number; sizeBytes: number; neededBytes: number };
  /** No data chunk was found. */
  "wav-no-data": { byteOffset: number };
  /** The file holds a codec we do not decode. `formatTag` is the wFormatTag number. */
  "wav-codec-unsupported": { byteOffset: number; formatTag: number; codec: string };
  /** A number in the fmt chunk is outside what is allowed. */
  "wav-format-invalid": {
    byteOffset: number;
    field: "channelCount" | "sampleRateHz" | "bitsPerSample" | "validBits" | "blockAlign";
    given: number;
    allowedMinimum: number;
    allowedMaximum: number;
  };
  /** The recording holds no whole sample frame. */
  "recording-empty": { durationSeconds: number };
  /** The recording holds nothing but digital silence. */
  "recording-silent": { durationSeconds: number };
  /** The recording holds only values that are not finite numbers. */
  "recording-not-finite": { nonFiniteCount: number };
  /** A value handed to a function is outside its range. */
  "value-out-of-range": { name: string; given: number; allowedMinimum: number; allowedMaximum: number };
  /** A note name that cannot be read. */
  "note-name-invalid": { given: string };
  /** The instrument file is not valid YAML, or does not follow the schema. `path` is like `strings[2].note`. */
  "instrument-invalid": { line: number; column: number; path: string; problem: string };
  /** A microphone's response is not a table of frequency and level. `line` counts from 1. */
  "microphone-invalid": {
    line: number;
    problem: "decimal-comma" | "not-two-numbers" | "not-rising" | "out-of-range" | "too-few" | "too-many";
  };
  /** No built-in tuning has that name. */
  "tuning-unknown": { given: string; known: string };
  /** An option names a string that the instrument does not have. `known` is empty where no instrument was named. */
  "string-unknown": { option: string; given: string; known: string };
  /** An option names a string twice. */
  "string-repeated": { option: string; given: string };
  /** No string of the instrument has a vibrating length, so that none can be scaled. */
  "length-unknown": Record<string, never>;
  /** The string cannot take this capo position. */
  "capo-not-available": { string: string; given: number; available: string };
  /**
   * A recording in another container than WAV can't be read. Found by its bytes: `codec-unsupported` (`codec` is its name in
   * the file), `no-sound`, `cut-off`. By the program that decodes: `no-decoder` (it is not installed), `codec-missing` (it lacks
   * this codec), `damaged`, `crashed`, `stalled` and `too-slow` (it was stopped), `too-long`, `not-decoded` (what it wrote
   * is no sound), `no-room` (on the disk for what is decoded), `not-started`.
   */
  "media-unreadable": {
    reason:
      | "codec-unsupported"
      | "no-sound"
      | "cut-off"
      | "no-decoder"
      | "codec-missing"
      | "damaged"
      | "crashed"
      | "stalled"
      | "too-slow"
      | "too-long"
      | "not-decoded"
      | "no-room"
      | "not-started";
    container: "MP4" | "MP3" | "FLAC" | "OGG";
    codec?: string;
  };
  /** A file that was named cannot be used. `limitBytes` is set where it is too large. */
  "file-unusable": {
    reason:
      | "missing"
      | "directory"
      | "not-regular"
      | "not-permitted"
      | "too-large"
      | "not-text"
      | "changed"
      | "unreadable";
    sizeBytes: number | null;
    limitBytes: number | null;
  };
  /** A file that was to be written can't be. */
  "output-unusable": {
    reason:
      | "exists"
      | "input"
      | "directory"
      | "not-regular"
      | "name"
      | "no-folder"
      | "not-permitted"
      | "no-space"
      | "not-a-log"
      | "log-full"
      | "failed";
  };
  /** WebAssembly with vectors, which the analysis runs in, can't be had. `reason` is the kind of exception. */
  "kernels-unavailable": { reason: string };
  /** A fault of this program; `fault` is the kind of exception. */
  "unexpected-fault": { fault: string };
}

/** The code of an {@link AnalysisError}. */
export type AnalysisErrorCode = keyof AnalysisErrorDetails;

/**
 * The one error that the analysis throws.
 *
 * @example
 * ```ts
 * try { parseNoteName("H9"); } catch (error) {
 *   if (error instanceof AnalysisError && error.is("note-name-invalid")) error.details.given; // "H9"
 * }
 * ```
 */
export class AnalysisError<C extends AnalysisErrorCode = AnalysisErrorCode> extends Error {
  override readonly name = "AnalysisError";
  readonly code: C;
  readonly details: AnalysisErrorDetails[C];

  constructor(code: C, details: AnalysisErrorDetails[C]) {
    super(`${code} ${JSON.stringify(details)}`);
    this.code = code;
    this.details = details;
  }

  /** Narrows the error to one code, so that its details are typed. */
  is<D extends AnalysisErrorCode>(code: D): this is AnalysisError<D> {
    return (this.code as AnalysisErrorCode) === code;
  }
}
