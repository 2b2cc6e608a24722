import { words } from "./words.js";
import type { Reply, Request } from "./worker/Messages.js";

interface Job {
  readonly request: Request;
  readonly onReply: (reply: Reply) => void;
  readonly settle: (outcome: Outcome) => void;
}

/** How a request ended; `stopped` where it was no longer wanted. */
export type Outcome = "done" | "stopped";

/**
 * The page's end of the line to the thread that reads. Requests are worked off one after another. A reading is one long calculation that
 * hears nothing: to stop it, its thread is ended, and another takes the next request.
 */
export class Analyst {
  #worker: Worker | null = null;
  #current: Job | null = null;
  readonly #waiting: Job[] = [];

  /** Resolves once the request is worked off, or stopped by the signal; what went wrong comes as a reply. */
  ask(request: Request, onReply: (reply: Reply) => void, signal?: AbortSignal): Promise<Outcome> {
    return new Promise((settle) => {
      if (signal?.aborted) {
        settle("stopped");
        return;
      }
      const job = { request, onReply, settle };
      signal?.addEventListener("abort", () => this.#stop(job), { once: true });
      this.#waiting.push(job);
      this.#next();
    });
  }

  #stop(job: Job): void {
    const place = this.#waiting.indexOf(job);
    if (place >= 0) {
      this.#waiting.splice(place, 1);
      job.settle("stopped");
    } else if (job === this.#current) {
      this.#worker?.terminate();
      this.#worker = null;
      this.#end("stopped");
    }
  }

  #next(): void {
    if (this.#current !== null) return;
    const job = this.#waiting.shift();
    if (job === undefined) return;
    this.#current = job;
    this.#worker ??= this.#start();
    this.#worker.postMessage(job.request);
  }

  #end(outcome: Outcome): void {
    const job = this.#current;
    this.#current = null;
    job?.settle(outcome);
    this.#next();
  }

  #start(): Worker {
    const worker = new Worker(new URL("./worker/analyst.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      if (worker !== this.#worker) return;
      if (data.kind === "done") this.#end("done");
      else this.#current?.onReply(data);
    };
    // It could not be loaded, or has run out of memory.
    worker.onerror = () => {
      if (worker !== this.#worker) return;
      this.#current?.onReply({ kind: "failed", sentence: words.failures.threadLost });
      worker.terminate();
      this.#worker = null;
      this.#end("done");
    };
    return worker;
  }
}
