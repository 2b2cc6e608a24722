import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { errorVerdict } from "./errorVerdict.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { wholeOffset } from "./wholeOffset.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];
type StringDocument = TakeDocument["strings"][number];

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
    .map((string) =>
      `${printable(string.name)} ${signed(string.ownErrorCents!, 1)}`.replaceAll(" ", "\u00a0"),
    );
  const pitch = `A4 = ${reference.a4Hz.toFixed(2)} Hz, ${signed(reference.offsetCents, 1)} cents from the pitch asked for`;
  const sure = reference.interval95Cents
    ? `95 %: ${intervalText(reference.interval95Cents, 1)}`
    : anchor === null
      ? "how surely is not known: too few strings"
      : "how surely is not known: it sounded for too short a time";
  const lines =
    anchor === null
      ? [
          `Taken together the strings stand at ${pitch} (${sure}).`,
          `Left for each string once that is taken off, in cents: ${own.join(", ")}. (No surer than the string's own ` +
            "reading above.)",
          ...adviceLines(take, settings.a4Hz, instrument !== null && settings.anchor === null),
        ]
      : [
          `${printable(anchor)}, the anchor, stands at ${pitch} (${sure}). Set to it, the whole instrument has that pitch.`,
          `Off from the anchor, in cents: ${own.join(", ")}.`,
        ];
  return lines
    .flatMap((line) => wrapText(line, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}

/** Keep the pitch the instrument has, or bring all of it to the one asked for. */
function adviceLines(take: TakeDocument, a4Hz: number, mayNameAnchor: boolean): string[] {
  const whole = wholeOffset(take);
  if (whole === null) return [];
  const apart = take.strings.filter((string) => differsFromRest(string, whole.offsetCents)).map(move);
  const up = whole.offsetCents < 0;
  const all = `all strings go ${up ? "up" : "down"} by about ${Math.abs(whole.offsetCents).toFixed(0)} cents`;
  const anchor = mayNameAnchor
    ? " If one string can't be moved, name it with --anchor and the rest go by it."
    : "";
  return [
    `Easiest: keep the instrument at A4 = ${whole.a4Hz.toFixed(1)} Hz and ` +
      (apart.length === 0
        ? "leave every string as it is: none differs from the rest enough to be heard."
        : `move only what differs from the rest: ${apart.join(", ")}.`),
    `If A4 must be ${a4Hz} Hz, ${all}${apart.length === 0 ? "" : ", those by what the table says"}` +
      `${up ? "; go up in small steps" : ""}.${anchor}`,
  ];
}

function differsFromRest(string: StringDocument, offsetCents: number): boolean {
  const { ownErrorCents, interval95Cents, frequencyHz } = string;
  if (ownErrorCents === null || frequencyHz === null) return false;
  const interval = interval95Cents
    ? ([interval95Cents[0] - offsetCents, interval95Cents[1] - offsetCents] as const)
    : null;
  return errorVerdict(ownErrorCents, interval, frequencyHz) !== "good";
}

function move({ name, ownErrorCents }: StringDocument): string {
  const own = ownErrorCents ?? 0;
  return `${printable(name)} ${own > 0 ? "down" : "up"} by ${Math.abs(own).toFixed(1)} cents`;
}
