import { availableParallelism } from "node:os";
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from "node:worker_threads";
import { sizeOf } from "./files/sizeOf.js";
import { lendNoHand } from "./hand.js";
import { type PoolAnswer, type PoolSetup, poolCounts } from "./PoolMessages.js";
import { countsOf } from "./sharedCounts.js";
import { workerSetup, YOUNG_MEGABYTES } from "./watcher.js";

/** Less than this to read, in bytes, is read sooner than another thread starts. */
const WORTH_BYTES = 12e6;
/** A thread from which nothing is heard for so long has ended. */
const SILENT_MS = 120_000;

/** Threads that read takes besides the one that asks. */
interface TakePool {
  /** A take that nobody has begun, which is the caller's from now on; beyond the last one where none is left. */
  next(): number;
  /** What was read since the last call. */
  answers(): PoolAnswer[];
  /** Waits for an answer; false where nothing is heard of anybody any more. */
  wait(): boolean;
}

/** Starts a thread for each processor besides this one, where there is enough to read; none in tests of the program itself. */
export function startPool(work: Omit<PoolSetup, "counts" | "answers">): TakePool {
  const counts = countsOf(poolCounts.size);
  const ports = workerSetup === null ? [] : startThreads(workerSetup.main, work, counts);
  let answered = 0;
  return {
    next: () => Atomics.add(counts, poolCounts.next, 1),
    answers: () => {
      const all: PoolAnswer[] = [];
      for (const port of ports) {
        for (let one = receiveMessageOnPort(port); one !== undefined; one = receiveMessageOnPort(port)) {
          all.push(one.message as PoolAnswer);
        }
      }
      answered += all.length;
      return all;
    },
    wait: () => {
      const alive = Atomics.load(counts, poolCounts.alive);
      const isSilent = Atomics.wait(counts, poolCounts.answered, answered, SILENT_MS) === "timed-out";
      return !isSilent || Atomics.load(counts, poolCounts.alive) !== alive;
    },
  };
}

function startThreads(
  main: string,
  work: Omit<PoolSetup, "counts" | "answers">,
  counts: PoolSetup["counts"],
): MessagePort[] {
  const { paths } = work;
  const bytes = paths.reduce((sum, path) => sum + sizeOf(path), 0);
  const count = bytes < WORTH_BYTES ? 0 : Math.min(availableParallelism(), paths.length) - 1;
  if (count > 0) lendNoHand();
  return Array.from({ length: count }, () => {
    const { port1, port2 } = new MessageChannel();
    const setup: PoolSetup = { ...work, counts, answers: port2 };
    const thread = new Worker(new URL(main), {
      workerData: { pool: setup },
      transferList: [port2],
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MEGABYTES },
    });
    // Nothing of it may keep the command from ending.
    thread.unref();
    port1.unref();
    return port1;
  });
}
