import { type AudioRecording, decodedRecording, openWav, sniffMedia } from "../../../src/index.js";
import { blobByteSource } from "./blobByteSource.js";
import type { NamedSound } from "./Messages.js";

/** Opens a recording: WAV by our own decoder, another by what the browser decoded of it. */
export function openSound({ blob, decoded }: NamedSound): AudioRecording {
  const source = blobByteSource(blob);
  if (decoded === null) return openWav(source);
  const format = sniffMedia(source);
  const sound = blobByteSource(decoded);
  return format === null ? openWav(sound) : decodedRecording(sound, format, false);
}
