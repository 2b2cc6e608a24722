import { isMainThread, parentPort, receiveMessageOnPort, workerData } from "node:worker_threads";
import type { PoolSetup } from "./PoolMessages.js";
import type { DecodeReply, DecodeRequest, ServeRequest, WorkerSetup, WorkMessage } from "./ThreadMessages.js";
import { writingGate } from "./ThreadMessages.js";

/** What the thread that works asks of the one that watches; both are one process. */
interface Watcher {
  /** Decodes a recording, and waits for it. */
  decode(request: DecodeRequest): DecodeReply;
  /** Closes what was decoded. */
  release(descriptor: number): void;
  /** Serves the bench page, once this thread has ended and until an interrupt. */
  serve(request: ServeRequest): void;
  /** Writes a file; an interrupt waits until it is whole, or gone. */
  whileWriting<T>(action: () => T): T;
}

/** Without a second thread, as in tests of the program itself, nothing is decoded and nothing interrupts. */
const nobody: Watcher = {
  decode: () => ({ reason: "no-decoder" }),
  release: () => {},
  serve: () => {},
  whileWriting: (action) => action(),
};

/** From one state to the next; where an interrupt came in between, the gate is closed for good and this thread waits for its end. */
function enter(gate: Int32Array, from: number, to: number): void {
  if (Atomics.compareExchange(gate, 0, from, to) === from) return;
  Atomics.store(gate, 0, writingGate.ended);
  Atomics.wait(gate, 0, writingGate.ended);
}

function overThreads({ gate, replyCount, replies }: WorkerSetup): Watcher {
  const tell = (message: WorkMessage) => parentPort?.postMessage(message);
  return {
    decode: (request) => {
      const before = Atomics.load(replyCount, 0);
      tell({ kind: "decode", request });
      Atomics.wait(replyCount, 0, before);
      return receiveMessageOnPort(replies)?.message as DecodeReply;
    },
    release: (descriptor) => tell({ kind: "release", descriptor }),
    serve: (request) => tell({ kind: "serve", request }),
    whileWriting: (action) => {
      enter(gate, writingGate.open, writingGate.writing);
      try {
        return action();
      } finally {
        enter(gate, writingGate.writing, writingGate.open);
      }
    },
  };
}

/** Whether this thread was started by {@link watch}. */
export const workerSetup: WorkerSetup | null =
  isMainThread || !workerData?.replyCount ? null : (workerData as WorkerSetup);

/** Whether this thread was started to read some of several takes. */
export const poolSetup: PoolSetup | null = isMainThread ? null : (workerData?.pool ?? null);

/** Room, in each thread that works, for what lives only for a moment: with it, two minutes of four strings take a tenth less time. */
export const YOUNG_MEGABYTES = 96;

/** The thread that watches over this one. */
export const watcher: Watcher = workerSetup === null ? nobody : overThreads(workerSetup);
