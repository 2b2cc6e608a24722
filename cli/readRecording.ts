import { AnalysisError, type AudioRecording, openWav } from "../src/index.js";
import { openFile } from "./files.js";

/**
 * Opens a recording, does something with it and closes it. What went wrong is returned, so that other takes go on; a fault of
 * this program is told as one.
 */
export function readRecording<T>(path: string, work: (recording: AudioRecording) => T): T | AnalysisError {
  try {
    const file = openFile(path);
    try {
      return work(openWav(file));
    } finally {
      file.close();
    }
  } catch (error) {
    if (error instanceof AnalysisError) return error;
    return new AnalysisError("unexpected-fault", { fault: error instanceof Error ? error.name : "unknown" });
  }
}
