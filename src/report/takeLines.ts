import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { bodyLines } from "./bodyLines.js";
import { count } from "./count.js";
import { findingLines } from "./findingLines.js";
import { inShortLines } from "./inShortLines.js";
import { lowRegisterLines } from "./lowRegisterLines.js";
import { lowStringLines } from "./lowStringLines.js";
import type { Paint } from "./paintFor.js";
import { pairLines } from "./pairLines.js";
import { printable } from "./printable.js";
import { referenceLines } from "./referenceLines.js";
import { stringLines, stringTable } from "./stringLines.js";
import { tuningSentences } from "./tuningSentences.js";
import { wheelLine } from "./wheelLine.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];

/** Everything about one take, section by section; sections with nothing to say are left out. */
export function takeLines(
  take: TakeDocument,
  context: Pick<MeasureDocument, "instrument" | "settings">,
  paint: Paint,
  width: number,
): string[] {
  const section = (title: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : ["", paint.heading(title), ...lines];
  // What spoils a reading comes before it; what is only good to know comes after.
  const grave = take.findings.filter(({ severity }) => severity !== "info");
  const mild = take.findings.filter(({ severity }) => severity === "info");
  return [
    ...takeHeadingLines(take, paint, width),
    ...section("The recording", findingLines(grave, paint, width)),
    ...section("In short", inShortLines(take, width)),
    ...section("Strings", [...stringLines(take, paint, width), ...referenceLines(take, context, width)]),
    ...section("The wheel", wheelLine(take.wheel, width)),
    ...section("Pairs of strings", pairLines(take, width)),
    ...section("What to do, step by step", stepLines(take, context, width)),
    ...section(
      "Low register",
      take.lowRegister === null
        ? []
        : [
            ...lowRegisterLines(take.lowRegister, context.settings.lowEdgeHz, width),
            ...bodyLines(take.lowRegister, width),
            ...lowStringLines(take.lowRegister.lowStrings, context.settings.lowEdgeHz, width),
          ],
    ),
    ...section(
      grave.length > 0 ? "More about the recording" : "The recording",
      findingLines(mild, paint, width),
    ),
  ];
}

/** The steps of the plan, where its pairs say more than the short answer does. */
function stepLines(
  take: TakeDocument,
  context: Pick<MeasureDocument, "instrument" | "settings">,
  width: number,
): string[] {
  if (take.pairs.length === 0) return [];
  return tuningSentences(take, context)
    .flatMap((sentence) => wrapText(sentence, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}

/** One of several takes: what spoils it, its short answer and its strings. The rest is in the summary, or printed of it alone. */
export function shortTakeLines(take: TakeDocument, paint: Paint, width: number): string[] {
  const grave = take.findings.filter(({ severity }) => severity !== "info");
  const table =
    take.strings.length === 0
      ? ["No string was heard."]
      : stringTable(take, take.referencePitch?.anchor ?? null, width);
  const notes = take.strings.flatMap(({ name, findings }) =>
    findings
      .filter(({ severity }) => severity !== "info")
      .flatMap(({ message }) => wrapText(`${printable(name)}: ${message}`, width, "  - ")),
  );
  return [
    ...takeHeadingLines(take, paint, width),
    ...findingLines(grave, paint, width),
    ...inShortLines(take, width),
    "",
    ...table,
    ...notes,
  ];
}

/** Name and size of a take. */
export function takeHeadingLines(take: TakeDocument, paint: Paint, width: number): string[] {
  const channels = take.channelCount === 1 ? "1 channel" : `${take.channelCount} channels`;
  const passages =
    take.passages.length === 1 ? "1 steady passage" : `${take.passages.length} steady passages`;
  const { encoding } = take;
  const from =
    encoding === null || encoding.container === "WAV" || encoding.codec === encoding.container
      ? (encoding?.container ?? "WAV")
      : `${encoding.codec} in ${encoding.container}`;
  const size = `${take.durationSeconds.toFixed(1)} s, ${channels}, ${count(take.sampleRateHz)} samples a second`;
  return [
    ...wrapText(printable(take.file), width).map(paint.heading),
    [size, ...(from === "WAV" ? [] : [from]), passages].join(", "),
  ];
}
