import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { wholeOffset } from "./wholeOffset.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];

/** The pitch that all strings agree on, or the anchor's, and what each is off from it. Empty where there is none. */
export function referenceLines(
  take: TakeDocument,
  { instrument, settings }: Pick<MeasureDocument, "instrument" | "settings">,
  width: number,
): string[] {
  const reference = take.referencePitch;
  // What one string has in common with itself is no news.
  if (!reference || take.strings.filter(({ status }) => status === "measured").length < 2) return [];
  const { anchor } = reference;
  const own = take.strings
    .filter(({ name, ownErrorCents }) => ownErrorCents !== null && name !== anchor)
    .map(({ name, ownErrorCents, ownErrorInterval95Cents: interval }) => {
      const sure = interval === null ? "" : ` (${intervalText(interval, 1)})`;
      return `${printable(name)} ${signed(ownErrorCents!, 1)}${sure}`.replaceAll(" ", "\u00a0");
    });
  const pitch = `A4 = ${reference.a4Hz.toFixed(2)} Hz, ${signed(reference.offsetCents, 1)} cents from the pitch asked for`;
  const sure = reference.interval95Cents
    ? `95 %: ${intervalText(reference.interval95Cents, 1)}`
    : anchor === null
      ? "how surely is not known: too few strings"
      : "how surely is not known: it sounded for too short a time";
  const lines =
    anchor === null
      ? [
          `Pitch of the whole: ${pitch} (${sure}). Left for each without that: ${own.join(", ")}.`,
          ...adviceLines(take, settings.a4Hz, instrument !== null && settings.anchor === null),
        ]
      : [
          `Pitch of ${printable(anchor)}, the anchor: ${pitch} (${sure}).`,
          `Off from the anchor, in cents (95 % sure between): ${own.join(", ")}.`,
        ];
  return lines
    .flatMap((line) => wrapText(line, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}

/** To bring the whole to the pitch asked for, which is another plan than the one above. */
function adviceLines(take: TakeDocument, a4Hz: number, mayNameAnchor: boolean): string[] {
  const whole = wholeOffset(take);
  if (whole === null) return [];
  const up = whole.offsetCents < 0;
  const anchor = mayNameAnchor
    ? " If one string can't be moved, name it with --anchor and the rest go by it."
    : "";
  return [
    `The plan above keeps that pitch. If A4 must be ${a4Hz} Hz, all strings ${up ? "rise" : "sink"} by ` +
      `${Math.abs(whole.offsetCents).toFixed(0)} cents besides${up ? "; go up in small steps" : ""}.${anchor}`,
  ];
}
