import { hearingLimitCents } from "./hearingLimitCents.js";

/** How a string stands: leave it, perhaps tune it, tune it. */
export type Verdict = "good" | "doubtful" | "bad";

/**
 * Whether an error matters, by what can be told from zero and what is heard of one string after another.
 *
 * @param interval95Cents - of the error; null where it is not known
 */
export function errorVerdict(
  errorCents: number,
  interval95Cents: readonly [number, number] | null,
  frequencyHz: number,
): Verdict {
  if (interval95Cents && interval95Cents[0] <= 0 && interval95Cents[1] >= 0) return "good";
  const limit = hearingLimitCents(frequencyHz);
  if (Math.abs(errorCents) < limit / 2) return "good";
  return Math.abs(errorCents) < limit ? "doubtful" : "bad";
}
