import type { OtherOnset } from "./readPlucks.js";
import type { StrayPluck, SympatheticOwnFinding, SympatheticString } from "./SympatheticReading.js";

/** More of one kind are counted, not listed. */
const MOST_LISTED = 6;

/** What is to be told about a take besides its strings. */
export function sympatheticFindings(
  strings: readonly SympatheticString[],
  strays: readonly StrayPluck[],
  others: readonly OtherOnset[],
  equal: readonly { readonly names: readonly string[]; readonly by: "pitch" | "order" | "guess" }[],
): SympatheticOwnFinding[] {
  const findings: SympatheticOwnFinding[] = [];
  const add = (
    code: SympatheticOwnFinding["code"],
    severity: SympatheticOwnFinding["severity"],
    values: SympatheticOwnFinding["values"],
  ) => findings.push({ code, severity, values });
  if (strings.every(({ status }) => status === "not-heard")) add("no-pluck", "problem", {});
  for (const { onsetSeconds, frequencyHz, note, deviationCents } of strays.slice(0, MOST_LISTED)) {
    add("plucks-not-placed", "warning", { startSeconds: onsetSeconds, frequencyHz, note, deviationCents });
  }
  if (strays.length > MOST_LISTED) {
    add("plucks-not-placed", "warning", { count: strays.length - MOST_LISTED });
  }
  const held = others.filter(({ reason }) => reason === "no-decay");
  if (held.length > 0) {
    const [{ onsetSeconds, frequencyHz }] = held;
    add("held-sound", "warning", {
      count: held.length,
      startSeconds: onsetSeconds,
      ...(frequencyHz !== null && { frequencyHz }),
    });
  }
  const close = others.filter(({ reason }) => reason === "too-short");
  if (close.length > 0) {
    add("plucks-too-close", "warning", { count: close.length, startSeconds: close[0].onsetSeconds });
  }
  const unread = others.filter(({ reason }) => reason === "no-series" || reason === "weak");
  if (unread.length > 0) {
    add("unread-begin", "info", { count: unread.length, startSeconds: unread[0].onsetSeconds });
  }
  for (const { names, by } of equal) {
    if (by === "pitch") continue;
    add("equal-plucks", by === "guess" ? "warning" : "info", { strings: names.join(", "), reason: by });
  }
  return findings;
}
