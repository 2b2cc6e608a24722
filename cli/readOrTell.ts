import { AnalysisError, type AudioRecording, errorSentence, printable } from "../src/index.js";
import { Progress } from "./Progress.js";
import { readRecording } from "./readRecording.js";
import type { Terminal } from "./Terminal.js";

/**
 * Reads one recording with its progress shown on stderr.
 *
 * @returns null, and a sentence on stderr, where it can't be read
 */
export function readOrTell<T>(
  path: string,
  terminal: Terminal,
  read: (recording: AudioRecording, onProgress: (done: number) => void) => T,
): T | null {
  const progress = new Progress(terminal.stderr);
  const reading = readRecording(path, (recording) =>
    read(recording, (done) => progress.show(printable(path), done)),
  );
  progress.erase();
  if (!(reading instanceof AnalysisError)) return reading;
  terminal.stderr.write(`gurdybench: ${errorSentence(reading, path)}\n`);
  return null;
}
