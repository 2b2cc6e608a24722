import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { hearingLimitCents } from "./hearingLimitCents.js";
import { intervalText } from "./intervalText.js";

type StringDocument = MeasureDocument["takes"][number]["strings"][number];

/** Plain words about one string, and how good that is. */
export interface StringAdvice {
  readonly verdict: "good" | "doubtful" | "bad";
  readonly text: string;
}

/** Beyond this a string is brought up with care, and may not be the string it is taken for. Our policy. */
const farOffCents = 60;
/** Listeners without training tell complex tones about 17 cents apart (Mehta & Oxenham 2020). */
const untrainedLimitCents = 17;

/** How far off a string is and which way, whether anyone would hear it, and what to do about it. */
export function stringAdvice(string: StringDocument): StringAdvice {
  if (string.status === "not-heard") {
    return {
      verdict: "doubtful",
      text: "not heard in this take. If it should have sounded: put it on the wheel, check its cotton, record again.",
    };
  }
  const { deviationCents, frequencyHz } = string;
  if (string.status === "unresolved" || deviationCents === null || frequencyHz === null) {
    return {
      verdict: "doubtful",
      text:
        "sounds, but cannot be told apart well enough from another string with nearly the same partials. Record a " +
        "longer take, or this string alone with the others lifted off the wheel.",
    };
  }
  const size = Math.abs(deviationCents);
  const distance = `${size.toFixed(1)} cents ${deviationCents < 0 ? "flat" : "sharp"}`;
  const interval = string.interval95Cents;
  const known = interval
    ? `${distance} (95 %: ${intervalText(interval, 1)})`
    : `${distance}; how surely is not known, because it sounded steadily for too short a time`;
  if (interval && interval[0] <= 0 && interval[1] >= 0) {
    return { verdict: "good", text: `${known}. That can't be told from zero. Leave it.` };
  }
  const limit = hearingLimitCents(frequencyHz);
  if (size < limit / 2) {
    return {
      verdict: "good",
      text:
        `${known}. Far below what anyone hears, one string after another. ` +
        "Leave it, unless it beats with another string.",
    };
  }
  const heard =
    size < limit
      ? "Few hear this, one string after another; beats may show it."
      : size < Math.max(untrainedLimitCents, limit)
        ? "Players hear this."
        : "Anyone hears this.";
  const verdict = size < limit ? "doubtful" : "bad";
  return { verdict, text: `${known}. ${heard} ${action(deviationCents)}` };
}

function action(deviationCents: number): string {
  const size = Math.abs(deviationCents);
  const way = deviationCents > 0 ? "down" : "up";
  if (size <= 10) return `Tune it ${way} a little.`;
  if (size <= farOffCents) return `Tune it ${way}.`;
  const doubt = "Make sure first that it is the string you mean and that the target is right.";
  return deviationCents > 0
    ? `${doubt} Then let it down in small steps.`
    : `${doubt} Then raise it in small steps: a string brought up too far snaps. Protect your eyes, and keep to ` +
        "the string maker's limits first of all.";
}
