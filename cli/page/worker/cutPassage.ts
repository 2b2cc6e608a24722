import type { Request } from "./Messages.js";
import { openSound } from "./openSound.js";

/** Longer than this nobody listens to one string. */
const LONGEST_SECONDS = 20;

/** A stretch of a recording as one channel. */
export function cutPassage({ sound, startSeconds, endSeconds }: Extract<Request, { kind: "passage" }>) {
  const recording = openSound(sound);
  const { sampleRateHz } = recording;
  const seconds = Math.min(LONGEST_SECONDS, endSeconds - startSeconds);
  const channels = recording.read(
    Math.round(startSeconds * sampleRateHz),
    Math.max(0, Math.round(seconds * sampleRateHz)),
  );
  const samples = new Float32Array(channels[0]?.length ?? 0);
  for (const channel of channels)
    for (let i = 0; i < samples.length; i++) samples[i]! += channel[i]! / channels.length;
  return { samples, sampleRateHz };
}
