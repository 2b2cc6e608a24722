import { useRef, useState } from "preact/hooks";
import type { Analyst } from "./Analyst.js";
import type { BenchTake } from "./BenchTake.js";
import { decodeInBrowser } from "./decodeInBrowser.js";
import { words } from "./words.js";
import type { NamedSound, Reply, TargetsAsked } from "./worker/Messages.js";

/** The takes on the bench, and what can be done with them. */
export interface Bench {
  readonly takes: readonly BenchTake[];
  /** Puts recordings on the bench and reads them. @returns the first one's id */
  add(files: readonly { readonly name: string; readonly blob: Blob }[], targets: TargetsAsked): string | null;
  read(id: string, targets: TargetsAsked): void;
  stop(id: string): void;
  remove(id: string): void;
}

/** Has a recording decoded by the browser where it is not WAV. @returns a sentence where that can't be done */
export async function prepareSound(
  analyst: Analyst,
  { name, blob }: { readonly name: string; readonly blob: Blob },
  onDecoding: () => void = () => {},
  signal?: AbortSignal,
): Promise<NamedSound | string> {
  let needsDecoding = false;
  let fault: string | null = null;
  const sound = { name, blob, decoded: null };
  await analyst.ask(
    { kind: "look", sound },
    (reply) => {
      if (reply.kind === "looked") needsDecoding = reply.needsDecoding;
      if (reply.kind === "failed") fault = reply.sentence;
    },
    signal,
  );
  if (fault !== null) return fault;
  if (!needsDecoding) return sound;
  onDecoding();
  const decoded = await decodeInBrowser(blob);
  return decoded === null ? words.failures.notDecoded(name) : { name, blob, decoded };
}

/** Keeps the takes on the bench, each with its state. */
export function useBench(analyst: Analyst): Bench {
  const [takes, setTakes] = useState<readonly BenchTake[]>([]);
  const stops = useRef(new Map<string, AbortController>());

  const change = (id: string, next: Partial<BenchTake>) =>
    setTakes((all) => all.map((one) => (one.id === id ? { ...one, ...next } : one)));

  async function work(take: BenchTake, targets: TargetsAsked): Promise<void> {
    const { id } = take;
    stops.current.get(id)?.abort();
    const stop = new AbortController();
    stops.current.set(id, stop);
    change(id, { state: "waiting", share: 0, fault: null });
    const sound =
      take.decoded === null
        ? await prepareSound(analyst, take, () => change(id, { state: "decoding" }), stop.signal)
        : take;
    if (stop.signal.aborted) return;
    if (typeof sound === "string") {
      change(id, { state: "failed", fault: sound });
      return;
    }
    const { name, blob, decoded } = sound;
    change(id, { decoded });
    const onReply = (reply: Reply) => {
      if (reply.kind === "progress") change(id, { state: "reading", share: reply.share });
      else if (reply.kind === "measured")
        change(id, { state: "drawing", share: 1, reading: { ...reply, page: null } });
      else if (reply.kind === "drawn")
        setTakes((all) =>
          all.map((one) =>
            one.id === id && one.reading !== null
              ? { ...one, state: "read", reading: { ...one.reading, page: reply.page } }
              : one,
          ),
        );
      else if (reply.kind === "failed") change(id, { state: "failed", fault: reply.sentence });
    };
    await analyst.ask({ kind: "measure", sound: { name, blob, decoded }, targets }, onReply, stop.signal);
  }

  return {
    takes,
    add: (files, targets) => {
      const added = files.map(
        ({ name, blob }): BenchTake => ({
          id: crypto.randomUUID(),
          name,
          blob,
          decoded: null,
          state: "waiting",
          share: 0,
          reading: null,
          fault: null,
        }),
      );
      setTakes((all) => [...added, ...all]);
      for (const take of added) void work(take, targets);
      return added[0]?.id ?? null;
    },
    read: (id, targets) => {
      const take = takes.find((one) => one.id === id);
      if (take !== undefined) void work(take, targets);
    },
    stop: (id) => {
      stops.current.get(id)?.abort();
      change(id, { state: "stopped" });
    },
    remove: (id) => {
      stops.current.get(id)?.abort();
      setTakes((all) => all.filter((one) => one.id !== id));
    },
  };
}
