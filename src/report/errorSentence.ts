import type { AnalysisError, AnalysisErrorCode, AnalysisErrorDetails } from "../errors.js";
import { count } from "./count.js";
import { mediaSentence } from "./mediaSentence.js";
import { printable } from "./printable.js";

type Sentences = {
  readonly [C in AnalysisErrorCode]: (details: AnalysisErrorDetails[C], file: string) => string;
};

const saveAsPcm = "Save it as a PCM WAV file (16 or 24 bit) and try again.";

const fileReasons: Record<AnalysisErrorDetails["file-unusable"]["reason"], string> = {
  missing: "was not found. Check the spelling and the folder.",
  directory: "is a folder. Name the files in it one by one, or with a pattern such as folder/*.wav.",
  "not-regular": "is not an ordinary file (a device, pipe or socket). Save the recording as a file first.",
  "not-permitted": "may not be read. Change its permissions, or copy it to a folder of your own.",
  "too-large": "is too large for what it should be.",
  changed:
    "changed while it was being read, as when the recorder still writes to it. Wait until it is finished, and measure it again.",
  "not-text":
    "is not plain text (UTF-8). Name the right file here, or open it in a text editor and save it as UTF-8.",
  unreadable: "could not be read; the disk or the network failed. Copy it to a local disk and try again.",
};

const outputReasons: Record<AnalysisErrorDetails["output-unusable"]["reason"], string> = {
  exists: "is there already and was left as it is. Name another file, or write over it with --force.",
  input: "is a file to be read, which is never written over. Name another file.",
  directory: "is a folder. Name a file in it.",
  "not-regular":
    "is not an ordinary file (a device, pipe or socket), so it was left alone. Name another file.",
  name: "can't be written: that can't be the name of a file here. Name another.",
  "no-folder": "can't be written: its folder is not there. Make the folder first, or name another.",
  "not-permitted":
    "can't be written: this folder or file may not be written to. Choose a folder of your own.",
  "no-space": "can't be written: the disk is full. Nothing was written. Make room, or choose another disk.",
  "log-full": "has grown as large as a log may be (64 MiB). Nothing was appended to it. Begin another one.",
  "not-a-log":
    "is no log of takes: its first line was not written by measure --log. Nothing was appended to it. Name another file.",
  failed: "can't be written: the disk or the network failed. Nothing was written.",
};

const fieldNames: Record<AnalysisErrorDetails["wav-format-invalid"]["field"], string> = {
  channelCount: "number of channels",
  sampleRateHz: "sample rate in hertz",
  bitsPerSample: "number of bits per sample",
  validBits: "number of valid bits per sample",
  blockAlign: "number of bytes per sample frame",
};

const microphoneProblems: Record<AnalysisErrorDetails["microphone-invalid"]["problem"], string> = {
  "decimal-comma": "a comma stands in a number. Write decimal points.",
  "not-two-numbers": "there are no two numbers.",
  "not-rising": "the frequency is not higher than the one before.",
  "out-of-range": "the frequency must lie between 1 and 200,000 Hz, and the level between -60 and 60 dB.",
  "too-few": "fewer than two frequencies were found.",
  "too-many": "there are more than 20,000 frequencies.",
};

const quantityNames: Readonly<Record<string, string>> = {
  a4Hz: "The pitch of A4 in hertz",
  lengthMm: "A vibrating length in millimetres",
  trompetteSeconds: "The length of a trompette take in seconds",
  scaleSeconds: "The length of a scale in seconds",
  takeSeconds: "The length of a take in seconds",
  tapSeconds: "The length of a take of taps in seconds",
  lowEdgeHz: "The edge of the low register in hertz",
};

const sentences: Sentences = {
  "wav-not-riff": (d, file) =>
    d.sizeBytes === 0
      ? `${file} is empty (0 bytes). Record or copy it again.`
      : `${file} is not a WAV file: it begins with "${printable(d.found)}", not with RIFF, RIFX, RF64 or BW64 ` +
        `(byte ${count(d.byteOffset)} of ${count(d.sizeBytes)}). Save the recording as WAV.`,
  "wav-not-wave": (d, file) =>
    `${file} is a RIFF file, but of the kind "${printable(d.found)}", not WAVE (byte ${count(d.byteOffset)}). ` +
    "Save the recording as WAV.",
  "wav-no-format": (d, file) =>
    `${file} does not say how its samples are stored (no readable format chunk up to byte ` +
    `${count(d.byteOffset)}). It may be cut off or damaged; copy or export it again.`,
  "wav-format-too-short": (d, file) =>
    `${file} has a format chunk of ${count(d.sizeBytes)} bytes at byte ${count(d.byteOffset)}, but its format needs ` +
    `at least ${count(d.neededBytes)}. It may be damaged; export it again.`,
  "wav-no-data": (d, file) =>
    `${file} holds no sound: no data chunk was found up to byte ${count(d.byteOffset)}. ` +
    "The recording may have been broken off; record or export it again.",
  "wav-codec-unsupported": (d, file) =>
    `${file} is compressed as ${printable(d.codec)} (format number ${d.formatTag}, byte ${count(d.byteOffset)}), which ` +
    `is not read here. Plain PCM and floating-point samples are. ${saveAsPcm}`,
  "wav-format-invalid": (d, file) =>
    `${file} gives ${count(d.given)} as the ${fieldNames[d.field]} (byte ${count(d.byteOffset)}); allowed is ` +
    `${count(d.allowedMinimum)} to ${count(d.allowedMaximum)}. ${saveAsPcm}`,
  "recording-empty": (_d, file) => `${file} holds no sound: not one whole sample. Record it again.`,
  "recording-silent": (d, file) =>
    `${file} holds only silence, ${d.durationSeconds.toFixed(1)} s of it. Check the microphone and the input that ` +
    "was recorded.",
  "recording-not-finite": (d, file) =>
    `${file} holds no usable sample: all ${count(d.nonFiniteCount)} values are not numbers. Export it again.`,
  "value-out-of-range": (d) =>
    `${quantityNames[d.name] ?? printable(d.name)} was given as ${d.given}; allowed is ` +
    `${range(d.allowedMinimum, d.allowedMaximum)}.`,
  "note-name-invalid": (d) =>
    `"${printable(d.given)}" is not a note name. Write a letter A to G, # or b where needed, and where an octave is ` +
    "meant its number: G4, F#3, Bb2.",
  "instrument-invalid": (d, file) =>
    `${file}, line ${d.line}, column ${d.column}${d.path === "" ? "" : `, ${printable(d.path)}`}: ` +
    `${printable(d.problem)}`,
  "microphone-invalid": (d, file) =>
    `${file}, line ${d.line}: ${microphoneProblems[d.problem]} Each line holds a frequency in hertz and a level in ` +
    "decibels, such as 100 -1.5.",
  "tuning-unknown": (d) =>
    `There is no built-in tuning "${printable(d.given)}". There are: ${printable(d.known)}. ` +
    '"gurdybench tunings" shows their notes.',
  "string-unknown": (d) =>
    d.known === ""
      ? `${optionName(d.option)} names a string "${printable(d.given)}", but no instrument and no tuning is named.`
      : `${optionName(d.option)} names a string "${printable(d.given)}" that the instrument does not have. ` +
        `It has: ${printable(d.known)}.`,
  "string-repeated": (d) =>
    `${optionName(d.option)} names the string "${printable(d.given)}" twice. Name each string once.`,
  "length-unknown": (_d, file) =>
    `${file} gives no vibrating length, so another length can't be reckoned from it. Add the length (lengthMm) to its strings.`,
  "capo-not-available": (d) =>
    `The string "${printable(d.string)}" cannot be raised by ${d.given} semitones. Possible: ` +
    `${d.available === "none" ? "none; where it can, add capo: [2] to the string in the instrument file" : printable(d.available)}.`,
  "media-unreadable": mediaSentence,
  "file-unusable": (d, file) =>
    `${file} ${fileReasons[d.reason]}` +
    (d.limitBytes === null
      ? ""
      : ` It has ${d.sizeBytes === null ? "more" : count(d.sizeBytes)} bytes; allowed is ${count(d.limitBytes)}.`),
  "output-unusable": ({ reason }, file) => `${file} ${outputReasons[reason]}`,
  "kernels-unavailable": (d) =>
    `This program or browser can't run WebAssembly with vectors, which the measuring needs (${printable(d.reason)}). ` +
    "Use Node 20 or later, or a browser of 2023 or later in which WebAssembly is not switched off.",
  "unexpected-fault": (d, file) =>
    `An unexpected fault (${printable(d.fault)}) stopped the work on ${file === "The file" ? "this" : file}. No file was changed. ` +
    "Please report it, with what you typed and, if you can, the recording.",
};

/**
 * The sentence that tells a person what went wrong: what was given, what is allowed, what to do.
 *
 * @param fileName - the file that was being read, as the person named it
 */
export function errorSentence(error: AnalysisError, fileName?: string): string {
  const file = fileName === undefined ? "The file" : printable(fileName) || '""';
  // The record's type ties each sentence to its own details, which indexing by a union cannot show.
  const sentence = sentences[error.code] as (details: unknown, file: string) => string;
  return sentence(error.details, file);
}

function optionName(option: string): string {
  return `--${printable(option).replace(/^-+/, "")}`;
}

function range(minimum: number, maximum: number): string {
  if (maximum === Number.POSITIVE_INFINITY) return `${minimum} or more`;
  return `${minimum} to ${maximum}`;
}
