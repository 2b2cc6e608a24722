import { type AnalysisError, type AudioRecording, measureTake, type TakeReading } from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { readRecording } from "./readRecording.js";

/** Measures one take. What went wrong is returned, so that the other takes go on. */
export function readTake(
  path: string,
  { targets, settings, turnsPerSecond }: ChosenTargets,
  onProgress: (done: number) => void,
  alsoLook: (recording: AudioRecording) => void = () => {},
): TakeReading | AnalysisError {
  const { a4Hz, lowEdgeHz, order, sounding, anchor } = settings;
  return readRecording(path, (recording) => {
    const reading = measureTake(recording, {
      targets,
      a4Hz,
      lowEdgeHz,
      onProgress,
      ...(turnsPerSecond !== null && { turnsPerSecond }),
      ...(order !== null && { order }),
      ...(sounding !== null && { sounding }),
      ...(anchor !== null && { anchor }),
    });
    alsoLook(recording);
    return reading;
  });
}
