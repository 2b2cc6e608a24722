import type { Spectrogram } from "../../audio/Spectrogram.js";
import type { TakeReading } from "../../reading/TakeReading.js";

/** What a page shows of a take besides its document. */
export interface PicturedTake extends Pick<TakeReading, "strings" | "durationSeconds"> {
  readonly spectrogram: Spectrogram | null;
}
