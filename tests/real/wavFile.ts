import { readFileSync } from "node:fs";
import type { AudioRecording } from "../../src/audio/AudioRecording.js";
import { openWav } from "../../src/wav/openWav.js";

/** Opens a WAV file, all of it in memory. */
export function wavFile(path: string): AudioRecording {
  const bytes = readFileSync(path);
  return openWav({
    sizeBytes: bytes.length,
    read: (offset, length) => bytes.subarray(offset, offset + length),
  });
}
