import type { AnalysisErrorDetails } from "../src/index.js";

/** By what ffmpeg says on failing; its wording has been the same in versions 4 to 7 (from memory; 5.1 was tried). */
const COMPLAINTS: readonly (readonly [RegExp, AnalysisErrorDetails["media-unreadable"]["reason"]])[] = [
  [/moov atom not found/i, "cut-off"],
  [/matches no streams|does not contain any stream/i, "no-sound"],
  [
    /not on whitelist|decoder .*not found|decoding requested, but no decoder|unknown decoder|unknown input format/i,
    "codec-missing",
  ],
];

/** Why ffmpeg failed. */
export function ffmpegFailure(complaints: string): AnalysisErrorDetails["media-unreadable"]["reason"] {
  return COMPLAINTS.find(([pattern]) => pattern.test(complaints))?.[1] ?? "damaged";
}

/** Whether ffmpeg found fault with what it decoded; that it was kept from other streams, such as the picture, is none. */
export function hasFaults(complaints: string): boolean {
  return complaints
    .split("\n")
    .some((line) => line.trim() !== "" && !/not on whitelist|last message repeated/i.test(line));
}
