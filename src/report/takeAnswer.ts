import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { bodyLines } from "./bodyLines.js";
import { inShortLines } from "./inShortLines.js";
import { lowRegisterLines } from "./lowRegisterLines.js";
import { lowStringLines } from "./lowStringLines.js";
import { referenceLines } from "./referenceLines.js";
import { stringAdvice } from "./stringAdvice.js";
import { stringErrors } from "./stringErrors.js";
import { tuningPlan } from "./tuningPlan.js";
import { tuningSentences } from "./tuningSentences.js";
import { wheelLine } from "./wheelLine.js";

type TakeDocument = MeasureDocument["takes"][number];

/** What a take comes to in words, for whoever lays it out otherwise than the sheets do. Names in it are as in the document. */
export interface TakeAnswer {
  /** What to tune and what to leave, shortest first. */
  readonly inShort: readonly string[];
  /** One for each string of the take, in its order. */
  readonly strings: readonly {
    readonly name: string;
    readonly verdict: "good" | "doubtful" | "bad";
    readonly text: string;
  }[];
  /** What to do step by step, and which pairs to leave. */
  readonly steps: readonly string[];
  /** Of the pitch as a whole. */
  readonly reference: readonly string[];
  readonly lowRegister: readonly string[];
  readonly wheel: readonly string[];
}

/** No sentence is wrapped. */
const UNBROKEN = 1_000_000;

/**
 * The sentences of the measuring sheet for one take, by what they are about.
 *
 * @param document - the one that the take stands in
 */
export function takeAnswer(
  take: TakeDocument,
  document: Pick<MeasureDocument, "instrument" | "settings">,
): TakeAnswer {
  const anchor = take.referencePitch?.anchor ?? null;
  const errors = stringErrors(take);
  const { steps } = tuningPlan(take);
  const { lowEdgeHz } = document.settings;
  const low = take.lowRegister;
  return {
    inShort: tidy(inShortLines(take, UNBROKEN)),
    strings: take.strings.map((string) => {
      const error = errors.find((one) => one.string === string) ?? null;
      const step = steps.find(({ name }) => name === string.name) ?? null;
      return { name: string.name, ...stringAdvice(string, { anchor, error, step }) };
    }),
    steps: take.pairs.length === 0 ? [] : tidy(tuningSentences(take, document)),
    reference: tidy(referenceLines(take, document, UNBROKEN)),
    lowRegister:
      low === null
        ? []
        : tidy([
            ...lowRegisterLines(low, lowEdgeHz, UNBROKEN),
            ...bodyLines(low, UNBROKEN),
            ...lowStringLines(low.lowStrings, lowEdgeHz, UNBROKEN),
          ]),
    wheel: tidy(wheelLine(take.wheel, UNBROKEN)),
  };
}

function tidy(lines: readonly string[]): string[] {
  return lines
    .map((line) => line.replaceAll("\u00a0", " ").replaceAll(/ {2,}/g, " ").trim())
    .filter((line) => line !== "");
}
