import type { MeasureDocument } from "../reading/measureDocumentSchema.js";

/**
 * Whether a recording is good enough to measure from.
 *
 * - `together`: nothing is wrong with the recording, but what sounds in it is no single string; `measure` reads several at
 *   once where a tuning or an instrument is named
 */
export type CheckVerdict = "good" | "doubtful" | "together" | "bad";

/** What several strings at once are found as where no tuning is named. */
const together = ["several-strings", "unread-stretch"];

/** Judges a take that was read without a tuning, by its findings. */
export function checkVerdict({
  findings,
  passages,
}: Pick<MeasureDocument["takes"][number], "findings" | "passages">): CheckVerdict {
  const mixed = findings.filter(({ code }) => together.includes(code));
  // A slip between strings bowed in turn is no reason to think of several at once: most of the sound must be like that.
  if (mixed.length === 0 || secondsOf(mixed.map(({ values }) => values)) < secondsOf(passages)) {
    return verdictOf(findings);
  }
  return verdictOf(findings.filter((one) => one.code !== "no-passage")) === "bad" ? "bad" : "together";
}

function verdictOf(findings: MeasureDocument["takes"][number]["findings"]): "good" | "doubtful" | "bad" {
  if (findings.some(({ severity }) => severity === "problem")) return "bad";
  return findings.some(({ severity }) => severity === "warning") ? "doubtful" : "good";
}

function secondsOf(spans: readonly Readonly<Record<string, unknown>>[]): number {
  return spans.reduce(
    (sum, { startSeconds, endSeconds }) => sum + (Number(endSeconds) - Number(startSeconds)),
    0,
  );
}
