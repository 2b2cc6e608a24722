import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];

/** The pitch that all strings agree on, and what each is off once that is taken away. Empty where there is none. */
export function referenceLines(take: TakeDocument, width: number): string[] {
  const reference = take.referencePitch;
  // What one string has in common with itself is no news.
  if (!reference || take.strings.filter(({ status }) => status === "measured").length < 2) return [];
  const sure = reference.interval95Cents
    ? `95 %: ${intervalText(reference.interval95Cents, 1)}`
    : "how surely is not known: too few strings";
  const own = take.strings
    .filter((string) => string.ownErrorCents !== null)
    .map((string) =>
      `${printable(string.name)} ${signed(string.ownErrorCents!, 1)}`.replaceAll(" ", "\u00a0"),
    );
  return [
    `Taken together the strings stand at A4 = ${reference.a4Hz.toFixed(2)} Hz, ${signed(reference.offsetCents, 1)} ` +
      `cents from the pitch asked for (${sure}).`,
    own.length === 0
      ? ""
      : `Left for each string once that is taken off, in cents: ${own.join(", ")}. (No surer than the string's own ` +
        "reading above.)",
  ]
    .filter((line) => line !== "")
    .flatMap((line) => wrapText(line, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}
