import { AnalysisError } from "../../src/index.js";
import { openFile } from "./openFile.js";

/**
 * All bytes of a file.
 *
 * @throws AnalysisError `file-unusable`, also where it is larger than `limitBytes`
 */
export function readWhole(path: string, limitBytes: number): Uint8Array {
  const file = openFile(path);
  try {
    const { sizeBytes } = file;
    if (sizeBytes > limitBytes)
      throw new AnalysisError("file-unusable", { reason: "too-large", sizeBytes, limitBytes });
    return file.read(0, sizeBytes);
  } finally {
    file.close();
  }
}
