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
import type { RecordingOrigin } from "./HandMessages.js";
import { watcher } from "./watcher.js";

type Work<T> = (recording: AudioRecording, origin: RecordingOrigin) => T;

/**
 * Opens a recording, does something with it and closes it. What went wrong is returned, so that other takes go on; a fault of
 * this program is told as one. WAV is read here; what else the file's bytes show it to be is decoded by ffmpeg first.
 */
export function readRecording<T>(path: string, work: Work<T>): T | AnalysisError {
  try {
    const file = openFile(path);
    try {
      const format = unlessChanged(file, () => sniffMedia(file));
      const { descriptor, sizeBytes, identity } = file;
      if (format === null)
        return unlessChanged(file, () =>
          work(openWav(file), { descriptor, sizeBytes, identity, decoded: null }),
        );
      return withDecoded(file, path, format, work);
    } finally {
      file.close();
    }
  } catch (error) {
    if (error instanceof AnalysisError) return error;
    return new AnalysisError("unexpected-fault", { fault: error instanceof Error ? error.name : "unknown" });
  }
}

function withDecoded<T>(file: OpenFile, path: string, format: MediaFormat, work: Work<T>): T {
  const { container } = format;
  const reply = unlessChanged(file, () =>
    watcher.decode({ descriptor: file.descriptor, path: resolve(path), format }),
  );
  if ("reason" in reply) throw new AnalysisError("media-unreadable", { reason: reply.reason, container });
  try {
    const { descriptor, sizeBytes, hasFaults } = reply;
    const source = descriptorSource(descriptor, sizeBytes);
    const origin = { descriptor, sizeBytes, identity: file.identity, decoded: { format, hasFaults } };
    return work(decodedRecording(source, format, hasFaults), origin);
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
