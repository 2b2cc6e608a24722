import type { MessagePort } from "node:worker_threads";
import { decodedRecording, openWav } from "../src/index.js";
import { HeldBand, type ReadingContext, readingJobs, trackRestOf } from "../src/threads.js";
import { descriptorSource } from "./files/openFile.js";
import {
  bandCounts,
  countUp,
  type HandAnswer,
  type HandRequest,
  jobCounts,
  type RecordingOrigin,
  takeOn,
} from "./HandMessages.js";
import type { ReadBand } from "./readAhead.js";

/**
 * Tracks the end of what was read ahead; then does jobs of a take, from the last to the first, that the thread that works has not taken
 * on.
 */
export function shareJobs(port: MessagePort, ahead: ReadBand | null): void {
  if (ahead !== null) trackAhead(port, ahead);
  let context: ReadingContext | null = null;
  port.on("message", (request: HandRequest) => {
    if (request.kind === "prepare") {
      context = contextOf(request);
      return;
    }
    const known = context;
    if (known === null) return;
    const { id, calls, counts } = request;
    const job = readingJobs[request.job] as (context: ReadingContext, call: unknown) => unknown;
    for (let index = calls.length - 1; index >= 0; index--) {
      if (!takeOn(counts, index)) continue;
      const answer = (isFault: boolean, result: unknown) =>
        port.postMessage({ kind: "job", id, index, isFault, result } satisfies HandAnswer);
      try {
        answer(false, job(known, calls[index]));
      } catch {
        // Done once more by the thread that asked, which tells of it.
        answer(true, null);
      }
      countUp(counts, jobCounts.answered);
    }
  });
  port.unref();
}

function trackAhead(port: MessagePort, { channels, counts, recording }: ReadBand): void {
  const answer = (message: HandAnswer) => port.postMessage(message);
  const frames = Atomics.load(counts, bandCounts.frames);
  try {
    const rest = trackRestOf(recording, channels, frames, (firstFrame) =>
      answer({ kind: "tracking", firstFrame }),
    );
    if (rest !== null) answer({ kind: "tracked", rest });
  } finally {
    countUp(counts, bandCounts.tracked);
  }
}

function contextOf({
  origin,
  context,
  band,
}: Extract<HandRequest, { kind: "prepare" }>): ReadingContext | null {
  const held = band === null ? null : new HeldBand(band, band[0]!.length);
  try {
    return { ...context, recording: opened(origin), survey: { ...context.survey, band: held } };
  } catch {
    // No job is taken on then.
    return null;
  }
}

function opened({ descriptor, sizeBytes, decoded }: RecordingOrigin) {
  const source = descriptorSource(descriptor, sizeBytes);
  return decoded === null ? openWav(source) : decodedRecording(source, decoded.format, decoded.hasFaults);
}
