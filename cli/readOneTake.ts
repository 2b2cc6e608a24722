import { type AnalysisError, type Spectrogram, spectrogramOf, type TakeReading } from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { readTake } from "./readTake.js";

/** One take as it was read, and its picture where one is wanted. */
export interface ReadOne {
  readonly reading: TakeReading | AnalysisError;
  readonly spectrogram: Spectrogram | null;
}

/** Reads one take, and makes its picture where a page is asked for. */
export function readOneTake(
  path: string,
  chosen: ChosenTargets,
  withPicture: boolean,
  onProgress: (done: number) => void,
): ReadOne {
  let spectrogram: Spectrogram | null = null;
  const reading = readTake(path, chosen, onProgress, (recording) => {
    if (withPicture) spectrogram = spectrogramOf(recording);
  });
  return { reading, spectrogram };
}
