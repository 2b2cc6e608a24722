import { AnalysisError } from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { type ReadOne, readOneTake } from "./readOneTake.js";
import { startPool } from "./takePool.js";

/** What becomes of several takes on the way. */
export interface TakesWatched {
  /** How far the take is that this thread reads. */
  onProgress(index: number, done: number): void;
  /** Called for each take, in their order, as soon as it and those before it are read. */
  onRead(index: number, read: ReadOne): void;
}

/**
 * Reads takes, several at a time where the machine has more than one processor and the takes are long enough to be worth the
 * start of another thread. Every take comes out as it would by itself.
 */
export function readTakes(
  paths: readonly string[],
  chosen: ChosenTargets,
  withPictures: boolean,
  { onProgress, onRead }: TakesWatched,
): void {
  const done = new Map<number, ReadOne>();
  let told = 0;
  const take = (index: number, read: ReadOne) => {
    if (!done.has(index)) done.set(index, read);
    for (let next = done.get(told); next !== undefined; next = done.get(told)) onRead(told++, next);
  };
  const readHere = (index: number) =>
    take(
      index,
      readOneTake(paths[index]!, chosen, withPictures, (share) => onProgress(index, share)),
    );
  const pool = startPool({ paths, chosen, withPictures });
  const collect = () => {
    for (const { index, read } of pool.answers()) {
      if (read === null) readHere(index);
      else if ("error" in read) {
        take(index, { reading: new AnalysisError(read.error.code, read.error.details), spectrogram: null });
      } else take(index, read);
    }
  };
  for (let index = pool.next(); index < paths.length; index = pool.next()) {
    readHere(index);
    collect();
  }
  while (told < paths.length) {
    const isAlive = pool.wait();
    collect();
    if (isAlive) continue;
    // A thread that has ended without a word, for want of memory perhaps: its takes are read here.
    for (const index of paths.keys()) if (!done.has(index)) readHere(index);
  }
}
