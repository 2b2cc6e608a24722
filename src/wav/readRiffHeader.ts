import { AnalysisError } from "../errors.js";
import type { ByteSource } from "./ByteSource.js";
import { fourCharacterCode } from "./fourCharacterCode.js";
import { printable } from "./printable.js";
import { viewOf } from "./viewOf.js";

/** What the first twelve bytes of the file say. */
export interface RiffHeader {
  /** RIFX files are big-endian throughout, samples included. */
  readonly littleEndian: boolean;
  /** RF64 and BW64: a size of 0xFFFFFFFF stands for the 64-bit one in the ds64 chunk. */
  readonly has64BitSizes: boolean;
}

const FORMS = new Map<string, RiffHeader>([
  ["RIFF", { littleEndian: true, has64BitSizes: false }],
  ["RIFX", { littleEndian: false, has64BitSizes: false }],
  ["RF64", { littleEndian: true, has64BitSizes: true }],
  ["BW64", { littleEndian: true, has64BitSizes: true }],
]);

/**
 * Reads the RIFF header. Its size field is not used: recorders that lost power, pipes and files over 4 GiB leave
 * it wrong, and the size of the source says more.
 *
 * @throws AnalysisError `wav-not-riff`, `wav-not-wave`
 */
export function readRiffHeader(source: ByteSource): RiffHeader {
  const view = viewOf(source, 0, 12);
  const found = fourCharacterCode(view, 0);
  const header = FORMS.get(found);
  if (!header) {
    throw new AnalysisError("wav-not-riff", {
      byteOffset: 0,
      found: printable(found),
      sizeBytes: source.sizeBytes,
    });
  }
  const form = fourCharacterCode(view, 8);
  if (form !== "WAVE") throw new AnalysisError("wav-not-wave", { byteOffset: 8, found: printable(form) });
  return header;
}
