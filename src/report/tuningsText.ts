import type { StringTarget } from "../instrument/Instrument.js";
import { printable } from "./printable.js";
import { textTable } from "./textTable.js";
import { wrapText } from "./wrapText.js";

/** One tuning to list: its name and where its strings should stand. */
export interface ListedTuning {
  readonly name: string;
  readonly targets: readonly StringTarget[];
}

/**
 * The built-in tunings with notes and frequencies: what `tunings` prints. Ends with a line break.
 *
 * @param a4Hz - the pitch of A4 that the targets were made for
 */
export function tuningsText(tunings: readonly ListedTuning[], a4Hz: number, width = 80): string {
  const lines = wrapText(
    `Built-in tunings, as they are in common practice; equal temperament, A4 = ${a4Hz} Hz. Use one with --tuning NAME; ` +
      "for any other, write an instrument file.",
    width,
  );
  for (const tuning of tunings) {
    const rows = tuning.targets.map((target) => [
      printable(target.name),
      target.role,
      printable(target.note),
      target.targetHz.toFixed(3),
    ]);
    const table = textTable(
      [
        { heading: ["string"], align: "left" },
        { heading: ["kind"], align: "left" },
        { heading: ["note"], align: "left" },
        { heading: ["Hz"], align: "right" },
      ],
      rows,
      width - 2,
    );
    lines.push("", printable(tuning.name), ...table.map((line) => `  ${line}`));
  }
  return `${lines.join("\n")}\n`;
}
