import type { MessagePort } from "node:worker_threads";
import { type AudioRecording, openWav, sniffMedia } from "../src/index.js";
import { type BandToFill, bandToFill } from "../src/threads.js";
import { openFile } from "./files/openFile.js";
import { bandCounts, FAILED, type HandAnswer, type SharedBand } from "./HandMessages.js";
import { inTurns } from "./inTurns.js";
import { countsOf, countUp } from "./sharedCounts.js";

/** A band that was read ahead, and the recording that it is of. */
export interface ReadBand extends SharedBand {
  readonly recording: Pick<AudioRecording, "sampleRateHz" | "durationSeconds">;
}

/**
 * Reads the recording that a command line seems to name while the thread that works still starts: it finds the band there, or, where
 * the guess was wrong or the recording can't be read, reads it itself and tells what is wrong.
 *
 * @returns what was read
 */
export async function readAhead(args: readonly string[], port: MessagePort): Promise<ReadBand | null> {
  const named = args.filter((arg) => !arg.startsWith("-") && /\.wave?$/i.test(arg));
  // Several takes are shared out whole.
  if (named.length !== 1) return null;
  try {
    const file = openFile(named[0]!);
    try {
      if (sniffMedia(file) !== null) return null;
      const recording = openWav(file);
      const band = bandToFill(recording, sharedMemory);
      return band === null ? null : { recording, ...(await fillAhead(band, file.identity, port)) };
    } finally {
      file.close();
    }
  } catch {
    // Told by the thread that works, which meets the same.
    return null;
  }
}

async function fillAhead(
  { channels, fill }: BandToFill,
  identity: string,
  port: MessagePort,
): Promise<SharedBand> {
  const counts = countsOf(bandCounts.size);
  const answer = (message: HandAnswer) => port.postMessage(message);
  const filledUpTo = (filled: number) => {
    Atomics.store(counts, bandCounts.filled, filled);
    Atomics.notify(counts, bandCounts.filled);
  };
  answer({ kind: "ahead", identity, band: { channels, counts } });
  try {
    const survey = await inTurns(fill(), filledUpTo);
    if (Atomics.load(counts, bandCounts.filled) < channels[0]!.length)
      throw new Error("the band is not full");
    answer({ kind: "survey", survey });
  } catch (error) {
    filledUpTo(FAILED);
    answer({ kind: "survey", survey: null });
    throw error;
  } finally {
    countUp(counts, bandCounts.surveyed);
  }
  return { channels, counts };
}

function sharedMemory(byteLength: number): SharedArrayBuffer {
  return new SharedArrayBuffer(byteLength);
}
