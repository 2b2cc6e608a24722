import { type MessagePort, receiveMessageOnPort } from "node:worker_threads";
import type { BandAhead, JobCall, JobKind, JobResult, SecondReader } from "../src/threads.js";
import {
  bandCounts,
  FAILED,
  type HandAnswer,
  type HandRequest,
  jobCounts,
  type RecordingOrigin,
  takeOn,
} from "./HandMessages.js";
import { countsOf } from "./sharedCounts.js";

let lastId = 0;

/**
 * A take as another thread reads it along.
 *
 * @param port - to `shareJobs` in that thread
 */
export function secondReader(port: MessagePort, origin: RecordingOrigin): SecondReader {
  const ask = (request: HandRequest) => port.postMessage(request);
  const answers = inbox(port);
  return {
    memory: (byteLength) => new SharedArrayBuffer(byteLength),
    ahead: aheadOf(answers, origin),
    prepare: ({ survey, targets }) =>
      ask({
        kind: "prepare",
        origin,
        context: { targets, survey: { ...survey, band: null } },
        band: survey.band?.channels ?? null,
      }),
    share: <K extends JobKind>(
      job: K,
      calls: readonly JobCall<K>[],
      here: (call: JobCall<K>) => JobResult<K>,
    ) => {
      if (calls.length < 2) return calls.map(here);
      const id = ++lastId;
      const counts = countsOf(jobCounts.firstTaken + calls.length);
      ask({ kind: "jobs", id, job, calls, counts });
      const results = new Map<number, JobResult<K>>();
      try {
        for (const [index, call] of calls.entries())
          if (takeOn(counts, index)) results.set(index, here(call));
      } finally {
        // Where one failed here, nobody waits for the others.
        for (const index of calls.keys()) takeOn(counts, index);
      }
      for (let answered = 0; results.size < calls.length; answered++) {
        Atomics.wait(counts, jobCounts.answered, answered);
        const answer = answers("job", (one) => one.id === id);
        if (answer === null) continue;
        const { index, isFault, result } = answer;
        results.set(index, isFault ? here(calls[index]!) : (result as JobResult<K>));
      }
      return calls.map((_, index) => results.get(index)!);
    },
    begin: <K extends JobKind>(job: K, call: JobCall<K>, here: (call: JobCall<K>) => JobResult<K>) => {
      const id = ++lastId;
      const counts = countsOf(jobCounts.firstTaken + 1);
      ask({ kind: "jobs", id, job, calls: [call], counts });
      return () => {
        if (takeOn(counts, 0)) return here(call);
        Atomics.wait(counts, jobCounts.answered, 0);
        const answer = answers("job", (one) => one.id === id);
        return answer === null || answer.isFault ? here(call) : (answer.result as JobResult<K>);
      };
    },
  };
}

type Answer<K extends HandAnswer["kind"]> = Extract<HandAnswer, { kind: K }>;
/** The first answer of a kind that has come and was not taken yet. */
type Inbox = <K extends HandAnswer["kind"]>(
  kind: K,
  isMeant?: (answer: Answer<K>) => boolean,
) => Answer<K> | null;

function inbox(port: MessagePort): Inbox {
  const waiting: HandAnswer[] = [];
  return <K extends HandAnswer["kind"]>(kind: K, isMeant: (answer: Answer<K>) => boolean = () => true) => {
    for (let one = receiveMessageOnPort(port); one !== undefined; one = receiveMessageOnPort(port)) {
      waiting.push(one.message as HandAnswer);
    }
    const found = waiting.findIndex((one) => one.kind === kind && isMeant(one as Answer<K>));
    return found < 0 ? null : (waiting.splice(found, 1)[0] as Answer<K>);
  };
}

/** What is being read already, if that is the recording. */
function aheadOf(answers: Inbox, { identity }: RecordingOrigin): BandAhead | null {
  const told = answers("ahead");
  if (told === null) return null;
  const { channels, counts } = told.band;
  if (told.identity !== identity) {
    Atomics.store(counts, bandCounts.frames, FAILED);
    return null;
  }
  let rest: Answer<"tracking"> | null = null;
  return {
    channels,
    filledBeyond: (seen) => {
      for (;;) {
        const filled = Atomics.load(counts, bandCounts.filled);
        if (filled === FAILED) return null;
        if (filled > seen) return filled;
        Atomics.wait(counts, bandCounts.filled, filled);
      }
    },
    restFrom: (frame) => {
      Atomics.store(counts, bandCounts.frames, frame);
      rest ??= answers("tracking");
      if (rest === null || frame <= rest.firstFrame) return null;
      Atomics.wait(counts, bandCounts.tracked, 0);
      return answers("tracked")?.rest ?? null;
    },
    survey: () => {
      Atomics.wait(counts, bandCounts.surveyed, 0);
      return answers("survey")?.survey ?? null;
    },
  };
}
