import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { errorVerdict, type Verdict } from "./errorVerdict.js";
import { hearingLimitCents } from "./hearingLimitCents.js";
import { intervalText } from "./intervalText.js";
import { farOffCents, raiseWithCare } from "./raiseWithCare.js";

type StringDocument = MeasureDocument["takes"][number]["strings"][number];

/** Plain words about one string, and how good that is. */
export interface StringAdvice {
  readonly verdict: Verdict;
  readonly text: string;
  /** What is to be tuned away, sharp positive: cents from the target, or from the anchor; null without a reading. */
  readonly errorCents: number | null;
}

/** Listeners without training tell complex tones about 17 cents apart (Mehta & Oxenham 2020). */
const untrainedLimitCents = 17;

/**
 * How far off a string is and which way, whether anyone would hear it, and what to do about it.
 *
 * @param anchor - name of the string that the others go by; null where they go by their targets
 */
export function stringAdvice(string: StringDocument, anchor: string | null): StringAdvice {
  if (string.status === "not-heard") {
    return {
      verdict: "doubtful",
      text: "not heard in this take. If it should have sounded: put it on the wheel, check its cotton, record again.",
      errorCents: null,
    };
  }
  const { deviationCents, frequencyHz, ownErrorCents } = string;
  const errorCents = anchor === null ? deviationCents : ownErrorCents;
  if (
    string.status === "unresolved" ||
    deviationCents === null ||
    errorCents === null ||
    frequencyHz === null
  ) {
    // A string that was named and not found has its reason among its findings, and may not sound at all.
    const has = (...codes: string[]) => string.findings.some(({ code }) => codes.includes(code));
    return {
      verdict: "doubtful",
      text: has("unison-locked", "hidden-under")
        ? "named as sounding, but not read."
        : has("other-sound")
          ? "may sound, but can't be read beside a sound that is none of the strings."
          : "sounds, but cannot be told apart well enough from another string with nearly the same partials. Record a " +
            "longer take, or this string alone with the others lifted off the wheel.",
      errorCents: null,
    };
  }
  if (string.name === anchor) {
    const known = withInterval(distance(deviationCents), string.interval95Cents);
    return {
      verdict: "good",
      text: `the anchor; leave it. It is ${known}, and the others go by it.`,
      errorCents: 0,
    };
  }
  const interval = anchor === null ? string.interval95Cents : string.ownErrorInterval95Cents;
  const known = withInterval(
    anchor === null ? distance(errorCents) : `${distance(errorCents)} of the anchor`,
    interval,
  );
  const verdict = errorVerdict(errorCents, interval, frequencyHz);
  if (interval && interval[0] <= 0 && interval[1] >= 0) {
    return { verdict, text: `${known}. That can't be told from zero. Leave it.`, errorCents };
  }
  if (verdict === "good") {
    return {
      verdict,
      text:
        `${known}. Far below what anyone hears, one string after another. ` +
        "Leave it, unless it beats with another string.",
      errorCents,
    };
  }
  const heard =
    verdict === "doubtful"
      ? "Few hear this, one string after another; beats may show it."
      : Math.abs(errorCents) < Math.max(untrainedLimitCents, hearingLimitCents(frequencyHz))
        ? "Players hear this."
        : "Anyone hears this.";
  return { verdict, text: `${known}. ${heard} ${action(errorCents)}`, errorCents };
}

function distance(errorCents: number): string {
  return `${Math.abs(errorCents).toFixed(1)} cents ${errorCents < 0 ? "flat" : "sharp"}`;
}

function withInterval(text: string, interval: readonly [number, number] | null): string {
  return interval
    ? `${text} (95 %: ${intervalText(interval, 1)})`
    : `${text}; how surely is not known, because it sounded steadily for too short a time`;
}

function action(errorCents: number): string {
  const size = Math.abs(errorCents);
  const way = errorCents > 0 ? "down" : "up";
  if (size <= 10) return `Tune it ${way} a little.`;
  if (size <= farOffCents) return `Tune it ${way}.`;
  const doubt = "Make sure first that it is the string you mean and that the target is right.";
  return errorCents > 0 ? `${doubt} Then let it down in small steps.` : `${doubt} Then ${raiseWithCare}`;
}
