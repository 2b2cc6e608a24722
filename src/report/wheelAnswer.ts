import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { toldPassages } from "./toldPassages.js";
import { wheelVerdict } from "./wheelVerdict.js";

/** The answer, in sentences. */
export function wheelAnswer(document: WheelDocument): string[] {
  return toldPassages(document).isLong ? answerOfMany(document) : answerOfFew(document);
}

function answerOfMany(document: WheelDocument): string[] {
  const { passages, turnsPerSecond, pitchSwingCents, levelSwingDb } = document;
  const { turning } = toldPassages(document);
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
    ...turning.flatMap((passage) => wheelVerdict(passage, false).slice(-1)),
    "That and the rest below are of the passage with the most strings; all of them: --json.",
  ];
}

function answerOfFew({ verdict, passages }: WheelDocument): string[] {
  return passages.length === 0
    ? [
        "No steady passage was found, so nothing can be said about the wheel. Where strings sound together, name the tuning or the instrument (--tuning, --instrument).",
      ]
    : verdict;
}
