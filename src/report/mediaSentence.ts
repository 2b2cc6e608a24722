import type { AnalysisErrorDetails } from "../errors.js";
import { printable } from "./printable.js";

type Media = AnalysisErrorDetails["media-unreadable"];

const containerNames: Record<Media["container"], string> = {
  MP4: "M4A (MP4)",
  MP3: "MP3",
  FLAC: "FLAC",
  OGG: "OGG",
};

const saveAsWav = "Save it as WAV in an audio editor and measure that.";

const reasons: Record<Media["reason"], (kind: string, codec: string) => string> = {
  "codec-unsupported": (kind, codec) =>
    `is ${kind}, but its sound is compressed as "${codec}", which is not read here. ${saveAsWav}`,
  "no-sound": (kind) => `is ${kind}, but holds no sound that could be read. Record or export it again.`,
  "cut-off": (kind) =>
    `is ${kind}, but its index is missing: the recording was broken off, or not copied whole. Copy or record it again.`,
  "no-decoder": (kind) =>
    `is ${kind}, which is read with the help of ffmpeg, and that is not installed here: install it ` +
    "(https://ffmpeg.org), or save the recording as WAV in an audio editor and measure that.",
  "codec-missing": (kind) => `is ${kind}, but the ffmpeg installed here lacks its codec. ${saveAsWav}`,
  damaged: (kind) =>
    `is ${kind}, but ffmpeg could not decode it: it is damaged or cut off. Copy or export it again.`,
  crashed: (kind) => `is ${kind}, and ffmpeg broke down over it. ${saveAsWav}`,
  stalled: (kind) => `is ${kind}, but ffmpeg came to a standstill over it and was stopped. ${saveAsWav}`,
  "too-slow": (kind) => `is ${kind}, but ffmpeg took too long over it and was stopped. ${saveAsWav}`,
  "too-long": (kind) =>
    `is ${kind} and too long: an hour at most (2 GiB decoded) is read. Cut it in an audio editor.`,
  "not-decoded": (kind) => `is ${kind}, but what ffmpeg made of it is no sound. ${saveAsWav}`,
  "no-room": (kind) =>
    `is ${kind}, and there is no room to decode it: the disk for temporary files is full or may not be written to. Make room there.`,
  "not-started": (kind) => `is ${kind}, but the ffmpeg installed here could not be started. ${saveAsWav}`,
};

/** Why a recording in another container than WAV can't be read, and what to do. */
export function mediaSentence({ reason, container, codec }: Media, file: string): string {
  return `${file} ${reasons[reason](containerNames[container], printable(codec ?? ""))}`;
}
