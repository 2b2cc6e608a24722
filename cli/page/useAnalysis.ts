import { useRef, useState } from "preact/hooks";
import type { Analyst } from "./Analyst.js";
import { prepareSound } from "./useBench.js";
import type { DrawnPage, NamedSound, Reply, Request } from "./worker/Messages.js";

/** A recording that was chosen. */
export interface ChosenSound {
  readonly name: string;
  readonly blob: Blob;
}

/** Something that is worked out from recordings, with its progress. */
export interface Analysis<Result> {
  /** Null where nothing is being worked out. */
  readonly share: number | null;
  readonly result: Result | null;
  /** Null until its charts are drawn. */
  readonly page: DrawnPage | null;
  readonly fault: string | null;
  /** Has what is not WAV decoded, and asks what `request` makes of the sounds. */
  run(sounds: readonly ChosenSound[], request: (sounds: readonly NamedSound[]) => Request): void;
  stop(): void;
  /** Stops, and puts away what was worked out. */
  clear(): void;
}

/** @param resultOf - what the thread that reads replies, once it has it */
export function useAnalysis<Result>(
  analyst: Analyst,
  resultOf: (reply: Reply) => Result | null,
): Analysis<Result> {
  const [share, setShare] = useState<number | null>(null);
  const [result, setResult] = useState<Result | null>(null);
  const [page, setPage] = useState<DrawnPage | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const running = useRef<AbortController | null>(null);

  async function work(
    sounds: readonly ChosenSound[],
    request: (sounds: readonly NamedSound[]) => Request,
    stop: AbortController,
  ): Promise<void> {
    const prepared: NamedSound[] = [];
    for (const sound of sounds) {
      const ready = await prepareSound(analyst, sound, () => {}, stop.signal);
      if (stop.signal.aborted) return;
      if (typeof ready === "string") {
        setFault(ready);
        return;
      }
      prepared.push(ready);
    }
    const onReply = (reply: Reply) => {
      if (reply.kind === "progress") setShare(reply.share);
      else if (reply.kind === "drawn") setPage(reply.page);
      else if (reply.kind === "failed") setFault(reply.sentence);
      else setResult(resultOf(reply));
    };
    await analyst.ask(request(prepared), onReply, stop.signal);
  }

  return {
    share,
    result,
    page,
    fault,
    run: (sounds, request) => {
      running.current?.abort();
      const stop = new AbortController();
      running.current = stop;
      setShare(0);
      setResult(null);
      setPage(null);
      setFault(null);
      void work(sounds, request, stop).then(() => {
        if (running.current === stop) setShare(null);
      });
    },
    stop: () => {
      running.current?.abort();
      setShare(null);
    },
    clear: () => {
      running.current?.abort();
      setShare(null);
      setResult(null);
      setPage(null);
      setFault(null);
    },
  };
}
