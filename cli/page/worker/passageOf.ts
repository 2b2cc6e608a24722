import type { Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";

/** Browsers play two channels; of more the first two are heard. */
const MOST_CHANNELS = 2;

/** The samples of a stretch of a recording, to be played. */
export function passageOf(
  { sound, startSeconds, endSeconds }: Extract<Request, { kind: "passage" }>,
  tell: (reply: Reply) => void,
): void {
  const recording = openSound(sound);
  const { sampleRateHz } = recording;
  const start = Math.round(startSeconds * sampleRateHz);
  const count = Math.round((endSeconds - startSeconds) * sampleRateHz);
  const channels = recording
    .read(start, count)
    .slice(0, MOST_CHANNELS)
    .map((samples) => Float32Array.from(samples));
  tell({ kind: "passage", channels, sampleRateHz });
}
