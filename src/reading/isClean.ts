import type { RecordingSurvey } from "../audio/RecordingSurvey.js";

/** Windows of the analysis reach this many 10 ms blocks beyond what they are centred on. */
const REACH_BLOCKS = 10;

/** True where a stretch holds no value that can't be sound; what holds one would be read wrongly, so it is not read. */
export function isClean(
  { startSeconds, endSeconds }: { readonly startSeconds: number; readonly endSeconds: number },
  survey: RecordingSurvey,
): boolean {
  const blockSeconds = survey.blockFrames / survey.sampleRateHz;
  const from = Math.max(0, Math.floor(startSeconds / blockSeconds) - REACH_BLOCKS);
  const to = Math.ceil(endSeconds / blockSeconds) + REACH_BLOCKS;
  return !survey.blockNotFinite.subarray(from, to).includes(1);
}
