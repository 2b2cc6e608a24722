import type { DecodingNote } from "./AudioRecording.js";
import type { Finding } from "./Finding.js";

/** What the decoder had to put up with, as findings; the numbers are handed on. One finding of a code. */
export function decodingFindings(notes: readonly DecodingNote[]): Finding[] {
  const truncated = notes.find((note) => note.code === "wav-truncated");
  const partial = notes.find((note) => note.code === "wav-partial-frame");
  const unset = notes.find((note) => note.code === "wav-size-unset");
  const findings: Finding[] = [];
  // A few bytes of one frame too many lose nothing; only missing sound is worth a warning.
  if (truncated !== undefined)
    findings.push({ code: "truncated", severity: "warning", values: truncated.values });
  else if (partial !== undefined)
    findings.push({ code: "truncated", severity: "info", values: partial.values });
  if (unset !== undefined) findings.push({ code: "size-unset", severity: "info", values: unset.values });
  for (const { code, values } of notes) {
    if (code === "lossy-codec" || code === "media-damaged")
      findings.push({ code, severity: "warning", values });
  }
  return findings;
}
