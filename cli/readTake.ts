import { AnalysisError, type AudioRecording, measureTake, openWav, type TakeReading } from "../src/index.js";
import type { ChosenTargets } from "./chooseTargets.js";
import { openFile } from "./files.js";

/** Measures one take. What went wrong is returned, so that the other takes go on. */
export function readTake(
  path: string,
  { targets, settings, turnsPerSecond }: ChosenTargets,
  onProgress: (done: number) => void,
  alsoLook: (recording: AudioRecording) => void = () => {},
): TakeReading | AnalysisError {
  try {
    const file = openFile(path);
    try {
      const { a4Hz, lowEdgeHz, order, sounding, anchor } = settings;
      const recording = openWav(file);
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
    } finally {
      file.close();
    }
  } catch (error) {
    if (error instanceof AnalysisError) return error;
    return new AnalysisError("unexpected-fault", { fault: error instanceof Error ? error.name : "unknown" });
  }
}
