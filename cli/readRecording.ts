import { resolve } from "node:path";
import {
  AnalysisError,
  type AudioRecording,
  decodedRecording,
  type MediaFormat,
  openWav,
  sniffMedia,
} from "../src/index.js";
import { descriptorSource, type OpenFile, openFile } from "./files/openFile.js";
import { watcher } from "./watcher.js";

/**
 * Opens a recording, does something with it and closes it. What went wrong is returned, so that other takes go on; a fault of
 * this program is told as one. WAV is read here; what else the file's bytes show it to be is decoded by ffmpeg first.
 */
export function readRecording<T>(path: string, work: (recording: AudioRecording) => T): T | AnalysisError {
  try {
    const file = openFile(path);
    try {
      const format = unlessChanged(file, () => sniffMedia(file));
      if (format === null) return unlessChanged(file, () => work(openWav(file)));
      return withDecoded(file, path, format, work);
    } finally {
      file.close();
    }
  } catch (error) {
    if (error instanceof AnalysisError) return error;
    return new AnalysisError("unexpected-fault", { fault: error instanceof Error ? error.name : "unknown" });
  }
}

function withDecoded<T>(
  file: OpenFile,
  path: string,
  format: MediaFormat,
  work: (recording: AudioRecording) => T,
): T {
  const { container } = format;
  const reply = unlessChanged(file, () =>
    watcher.decode({ descriptor: file.descriptor, path: resolve(path), format }),
  );
  if ("reason" in reply) throw new AnalysisError("media-unreadable", { reason: reply.reason, container });
  try {
    const source = descriptorSource(reply.descriptor, reply.sizeBytes);
    return work(decodedRecording(source, format, reply.hasFaults));
  } finally {
    watcher.release(reply.descriptor);
  }
}

/** Whatever came of it counts only where the file has stayed what it was; where it has not, that is the reason to tell. */
function unlessChanged<T>(file: OpenFile, action: () => T): T {
  try {
    return action();
  } finally {
    file.refuseChanged();
  }
}
