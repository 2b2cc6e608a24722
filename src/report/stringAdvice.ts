import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { aboutCents } from "./aboutCents.js";
import type { Verdict } from "./errorVerdict.js";
import { hearingLimitCents } from "./hearingLimitCents.js";
import { intervalText } from "./intervalText.js";
import { raiseWithCare } from "./raiseWithCare.js";
import type { StringError } from "./stringErrors.js";
import type { TuningStep } from "./tuningPlan.js";

type StringDocument = MeasureDocument["takes"][number]["strings"][number];

/** Plain words about one string, and how good that is. */
export interface StringAdvice {
  readonly verdict: Verdict;
  readonly text: string;
}

/** What the plan of the take holds for a string. */
export interface PlannedString {
  readonly anchor: string | null;
  /** Null without a reading. */
  readonly error: StringError | null;
  /** Null where the string stays. */
  readonly step: TuningStep | null;
}

/** Listeners without training tell complex tones about 17 cents apart (Mehta & Oxenham 2020). */
const untrainedLimitCents = 17;

/** How far off a string is and which way, whether anyone would hear it, and what the plan of the take does about it. */
export function stringAdvice(string: StringDocument, { anchor, error, step }: PlannedString): StringAdvice {
  if (string.status === "not-heard") {
    return {
      verdict: "doubtful",
      text: "not heard in this take. If it should have sounded: put it on the wheel, check its cotton, record again.",
    };
  }
  if (string.status === "unresolved" || error === null) {
    // A string that was named and not found has its reason among its findings, and may not sound at all.
    const has = (...codes: string[]) => string.findings.some(({ code }) => codes.includes(code));
    return {
      verdict: "doubtful",
      text: has("unison-locked", "hidden-under")
        ? "named as sounding, but not read."
        : has("other-sound")
          ? "may sound, but can't be read beside a sound that is none of the strings."
          : has("not-separable")
            ? "sounds, but was not read."
            : "sounds, but cannot be told apart well enough from another string with nearly the same partials. Record a " +
              "longer take, or this string alone with the others lifted off the wheel.",
    };
  }
  if (string.name === anchor) {
    const known = withInterval(distance(string.deviationCents ?? 0), string.interval95Cents);
    return { verdict: "good", text: `the anchor; leave it. It is ${known}, and the others go by it.` };
  }
  const known = withInterval(
    distance(error.errorCents) + zeroWords[error.countedFrom],
    error.interval95Cents,
  );
  if (step === null) return { verdict: "good", text: `${known}. Leave it.` };
  const verdict = step.isPerhaps ? "doubtful" : "bad";
  return { verdict, text: `${known}. ${heard(error)} ${action(step)}` };
}

const zeroWords = { target: "", whole: " of the rest", anchor: " of the anchor" } as const;

/** Who hears an error of a string bowed by itself. */
function heard({ errorCents, verdict, string }: StringError): string {
  if (verdict === "good") return "Only the beats show it.";
  if (verdict === "doubtful") return "Few hear this, one string after another; beats may show it.";
  const everyone = Math.max(untrainedLimitCents, hearingLimitCents(string.frequencyHz ?? string.targetHz));
  return Math.abs(errorCents) < everyone ? "Players hear this." : "Anyone hears this.";
}

function distance(errorCents: number): string {
  return `${Math.abs(errorCents).toFixed(1)} cents ${errorCents < 0 ? "flat" : "sharp"}`;
}

function withInterval(text: string, interval: readonly [number, number] | null): string {
  return interval
    ? `${text} (95 %: ${intervalText(interval, 1)})`
    : `${text}; how surely is not known, because it sounded steadily for too short a time`;
}

function action({ moveCents, isPerhaps }: TuningStep): string {
  const way = `${moveCents > 0 ? "up" : "down"} by about ${aboutCents(moveCents)} cents`;
  return raiseWithCare(moveCents) ?? `${isPerhaps ? "Perhaps tune" : "Tune"} it ${way}.`;
}
