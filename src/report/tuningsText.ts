import { printable } from "./printable.js";
import { textTable } from "./textTable.js";
import { type ListedTuning, tuningTable } from "./tuningTable.js";
import { wrapText } from "./wrapText.js";

/** What is said of all of them. */
export function tuningsIntro(a4Hz: number): string {
  return (
    `Built-in tunings, as they are in common practice; equal temperament, A4 = ${a4Hz} Hz. Use one with --tuning NAME; ` +
    "for any other, write an instrument file."
  );
}

/**
 * The built-in tunings with notes and frequencies: what `tunings` prints. Ends with a line break.
 *
 * @param a4Hz - the pitch of A4 that the targets were made for
 */
export function tuningsText(tunings: readonly ListedTuning[], a4Hz: number, width = 80): string {
  const lines = wrapText(tuningsIntro(a4Hz), width);
  for (const tuning of tunings) {
    const { columns, rows } = tuningTable(tuning);
    lines.push("", printable(tuning.name), ...textTable(columns, rows, width - 2).map((line) => `  ${line}`));
  }
  return `${lines.join("\n")}\n`;
}
