import {
  type AnalysisError,
  type AudioRecording,
  measureOptionsOf,
  measureTake,
  type TakeReading,
} from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { handFor } from "./hand.js";
import { readRecording } from "./readRecording.js";

/** Measures one take. What went wrong is returned, so that the other takes go on. */
export function readTake(
  path: string,
  chosen: ChosenTargets,
  onProgress: (done: number) => void,
  alsoLook: (recording: AudioRecording) => void = () => {},
): TakeReading | AnalysisError {
  const { turnsPerSecond } = chosen;
  return readRecording(path, (recording, origin) => {
    const options = {
      ...measureOptionsOf(chosen),
      onProgress,
      ...(turnsPerSecond !== null && { turnsPerSecond }),
    };
    const reading = measureTake(recording, options, handFor(origin));
    alsoLook(recording);
    return reading;
  });
}
