import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { findingLines } from "./findingLines.js";
import type { TextOptions } from "./measureText.js";
import { paintFor } from "./paintFor.js";
import { printable } from "./printable.js";
import { section } from "./section.js";
import { wheelAdvice, wheelRateSentences } from "./wheelAdvice.js";
import { wheelPassageTable } from "./wheelPassageTable.js";
import { wheelPhaseLines } from "./wheelPhaseLines.js";
import { wheelStringLines } from "./wheelStringLines.js";
import { wheelTurnLines } from "./wheelTurnLines.js";
import { wheelVerdict } from "./wheelVerdict.js";
import { wrapText } from "./wrapText.js";

/** More passages than this are told in a table. */
const MOST_TOLD = 2;

type PassageDocument = WheelDocument["passages"][number];

const CAUTION =
  "A turning wheel catches hair, cuffs and fingers. Tie hair back, keep hands off the wheel while someone cranks, and turn it " +
  "by hand, slowly, when you look at the rim.";

/** What a take says about the wheel, for people: the answer first, then strings, the turn, what is left, what to try. */
export function wheelText(document: WheelDocument, options: TextOptions): string {
  const paint = paintFor(options.colour);
  const width = Math.max(60, options.width ?? 80);
  const { passages } = document;
  const grave = document.findings.filter(({ severity }) => severity !== "info");
  const sentences = (texts: readonly string[]) =>
    [...new Set(texts)].flatMap((text) => wrapText(text, width, "  ", "  "));
  const isLong = passages.length > MOST_TOLD;
  const shown = passages.filter(({ turnsPerSecond }) => turnsPerSecond !== null);
  const turning = isLong ? fullest(shown) : shown;
  const titled = (title: string, passage: PassageDocument) =>
    paint.heading(
      passages.length === 1
        ? title
        : `${title}, ${passage.startSeconds.toFixed(1)} to ${passage.endSeconds.toFixed(1)} s`,
    );
  const lines = [
    ...wrapText(
      `${paint.heading(printable(document.file))}, ${document.durationSeconds.toFixed(1)} s`,
      width,
    ),
    ...section(paint.heading("In short"), sentences(isLong ? inShortOfMany(document) : inShort(document))),
    ...section(paint.heading("Passages"), isLong ? wheelPassageTable(passages, width) : []),
    ...section(paint.heading("The recording"), findingLines(grave, paint, width)),
    ...turning.flatMap((passage) => [
      ...section(titled("Swing by string, to either side", passage), wheelStringLines(passage, width)),
      ...section(titled("One turn of the wheel", passage), wheelTurnLines(passage, width)),
      ...section(titled("The strings against each other", passage), wheelPhaseLines(passage, width)),
      ...section(titled("What does not come round", passage), sentences(leftOver(passage))),
      ...section(titled("The rate", passage), sentences(wheelRateSentences(passage))),
    ]),
    ...section(
      paint.heading("What to try"),
      sentences((isLong && turning.length > 0 ? turning : passages).flatMap(wheelAdvice)),
    ),
    ...section(paint.heading("Caution"), sentences([CAUTION])),
    ...(turning.length > 0 ? ["", ...wrapText(TERMS, width, "", "  ")] : []),
  ];
  return `${lines.join("\n")}\n`;
}

const TERMS =
  "Degrees: of one turn, counted from where the first string that swings is highest. Swing: half of highest to lowest, of the waves that come round " +
  "one to four times a turn and are shown. One turn: means at eight places against the mean of the turn, 95 % sure (+-) over the " +
  "turns; all 24 places: --json.";

/** The one passage that says most: of the most strings, and of these the longest. */
function fullest(passages: readonly PassageDocument[]): PassageDocument[] {
  const seconds = ({ startSeconds, endSeconds }: PassageDocument) => endSeconds - startSeconds;
  return [...passages]
    .sort((a, b) => b.strings.length - a.strings.length || seconds(b) - seconds(a))
    .slice(0, 1);
}

function inShortOfMany({ passages, turnsPerSecond, pitchSwingCents, levelSwingDb }: WheelDocument): string[] {
  const shown = passages.filter((passage) => passage.turnsPerSecond !== null);
  if (turnsPerSecond === null) {
    return [
      `No swing that keeps time with the wheel is shown in any of ${passages.length} passages. A swing needs four turns and four seconds ` +
        "or more to be told from chance.",
    ];
  }
  const swings = [
    pitchSwingCents === null ? "" : `pitch swings by ${pitchSwingCents.toFixed(1)} cents`,
    levelSwingDb === null ? "" : `level by ${levelSwingDb.toFixed(1)} dB`,
  ].filter((text) => text !== "");
  return [
    `The wheel goes round ${turnsPerSecond.toFixed(2)} times a second; ${swings.join(" and ")} to either side (medians of ` +
      `${shown.length} of ${passages.length} passages).`,
    // The last sentence of a passage's verdict is what its phases say of arm and wheel.
    ...fullest(shown).flatMap((passage) => wheelVerdict(passage, false).slice(-1)),
    "That and the rest below are of the passage with the most strings; all of them: --json.",
  ];
}

function inShort({ verdict, passages }: WheelDocument): string[] {
  return passages.length === 0
    ? [
        "No steady passage was found, so nothing can be said about the wheel. Where strings sound together, name the tuning or the instrument (--tuning, --instrument).",
      ]
    : verdict;
}

function leftOver({ strings, rateSpread }: PassageDocument): string[] {
  const each = strings.map(
    ({ name, pitch, level }) =>
      `${printable(name)}: slow drift ${pitch.drift.toFixed(2)} cents and ${level.drift.toFixed(2)} dB, quick unrest ` +
      `${pitch.jitter.toFixed(2)} cents and ${level.jitter.toFixed(2)} dB.`,
  );
  const crank =
    rateSpread === null ? "" : `The rate itself wandered by ${(100 * rateSpread).toFixed(1)} % in the take.`;
  return [
    ...each,
    `${crank} These are standard deviations and describe this take, so they have no interval; slow is slower than a turn.`,
  ];
}
