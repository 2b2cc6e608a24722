import type { MessagePort } from "node:worker_threads";
import { decodedRecording, openWav } from "../src/index.js";
import { HeldBand, type ReadingContext, readingJobs, trackRestOf } from "../src/threads.js";
import { descriptorSource } from "./files/openFile.js";
import {
  bandCounts,
  FAILED,
  type HandAnswer,
  type HandRequest,
  jobCounts,
  type RecordingOrigin,
  takeOn,
} from "./HandMessages.js";
import { inTurns } from "./inTurns.js";
import type { ReadBand } from "./readAhead.js";
import { countUp } from "./sharedCounts.js";

/**
 * Tracks the end of what was read ahead; then does jobs of a take, from the last to the first, that the thread that works has not taken
 * on: one a turn, so that signals and messages are seen to in between.
 */
export async function shareJobs(port: MessagePort, ahead: ReadBand | null): Promise<void> {
  if (ahead !== null) await trackAhead(port, ahead);
  let context: ReadingContext | null = null;
  const queue: Jobs[] = [];
  const turn = () => {
    const [jobs] = queue;
    if (jobs === undefined) return;
    // Of a recording that could not be opened here nothing is taken on.
    if (context === null || !doOne(port, jobs, context)) queue.shift();
    setImmediate(turn);
  };
  port.on("message", (request: HandRequest) => {
    if (request.kind === "jobs") {
      if (queue.push(request) === 1) turn();
      return;
    }
    // What is left of the take before nobody waits for.
    queue.length = 0;
    context = contextOf(request);
  });
  port.unref();
}

type Jobs = Extract<HandRequest, { kind: "jobs" }>;

/** @returns false where nothing is left to take on */
function doOne(port: MessagePort, { id, job, calls, counts }: Jobs, context: ReadingContext): boolean {
  let index = calls.length - 1;
  while (index >= 0 && !takeOn(counts, index)) index--;
  if (index < 0) return false;
  const answer = (isFault: boolean, result: unknown) =>
    port.postMessage({ kind: "job", id, index, isFault, result } satisfies HandAnswer);
  try {
    const work = readingJobs[job] as (context: ReadingContext, call: unknown) => unknown;
    answer(false, work(context, calls[index]));
  } catch {
    // Done once more by the thread that asked, which tells of it.
    answer(true, null);
  }
  countUp(counts, jobCounts.answered);
  return true;
}

async function trackAhead(port: MessagePort, { channels, counts, recording }: ReadBand): Promise<void> {
  const answer = (message: HandAnswer) => port.postMessage(message);
  const frames = Atomics.load(counts, bandCounts.frames);
  try {
    const rest = frames === FAILED ? null : trackRestOf(recording, channels, frames);
    if (rest === null) return;
    answer({ kind: "tracking", firstFrame: rest.firstFrame });
    answer({ kind: "tracked", rest: await inTurns(rest.steps) });
  } finally {
    countUp(counts, bandCounts.tracked);
  }
}

function contextOf({
  origin,
  context,
  band,
}: Extract<HandRequest, { kind: "prepare" }>): ReadingContext | null {
  try {
    const held = band === null ? null : new HeldBand(band, band[0]!.length);
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
