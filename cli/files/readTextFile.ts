import { unusable } from "./fileErrors.js";
import { readWhole } from "./readWhole.js";

/**
 * Reads a whole text file (UTF-8, with or without a byte order mark).
 *
 * @throws AnalysisError `file-unusable`, also where the file is larger than `limitBytes` or is not text
 */
export function readTextFile(path: string, limitBytes: number): string {
  const bytes = readWhole(path, limitBytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw unusable("not-text");
  }
}
