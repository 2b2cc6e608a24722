import type { SympatheticDocument } from "../sympathetic/sympatheticDocumentSchema.js";
import { aboutCents } from "./aboutCents.js";
import { printable } from "./printable.js";
import { raiseWithCare } from "./raiseWithCare.js";

type StringDocument = SympatheticDocument["strings"][number];

/** A string is tuned where it is further off than it answers, but no finer and no coarser than this (our policy). */
const FINEST_CENTS = 1;
const COARSEST_CENTS = 5;

/** True for a string that is to be moved: off by more than it answers over, and surely off. */
export function isToTune({ deviationCents, interval95Cents, answerCents }: StringDocument): boolean {
  if (deviationCents === null || interval95Cents === null) return false;
  if (interval95Cents[0] <= 0 && interval95Cents[1] >= 0) return false;
  const limit = Math.min(COARSEST_CENTS, Math.max(FINEST_CENTS, answerCents ?? COARSEST_CENTS));
  return Math.abs(deviationCents) >= limit;
}

/** What to do: which strings to move, which way and how far, far ones apart; which can stay; which were not heard. */
export function sympatheticAdvice({ strings }: Pick<SympatheticDocument, "strings">): string[] {
  const measured = strings.filter(({ status }) => status === "measured");
  const unheard = strings.filter(({ status }) => status === "not-heard");
  if (measured.length === 0) return ["No string was heard, so nothing can be said; see Cautions."];
  const moving = measured.filter(isToTune);
  const isFar = (string: StringDocument) => raiseWithCare(-(string.deviationCents ?? 0)) !== null;
  const near = moving.filter((string) => !isFar(string));
  const staying = measured.filter((string) => !moving.includes(string));
  const up = near.filter(({ deviationCents }) => (deviationCents ?? 0) < 0);
  const down = near.filter(({ deviationCents }) => (deviationCents ?? 0) > 0);
  return [
    ...moving.filter(isFar).map((string) => {
      const moveCents = -(string.deviationCents ?? 0);
      return `${printable(string.name)} is far off: ${moveCents > 0 ? "up" : "down"} by about ${aboutCents(moveCents)} cents. ${raiseWithCare(moveCents)}`;
    }),
    up.length > 0
      ? `Tune up: ${up.map(said).join(", ")}. Raise in small steps: a string brought up too far snaps.`
      : "",
    down.length > 0 ? `Tune down: ${down.map(said).join(", ")}.` : "",
    staying.length > 0 ? `Leave ${staying.map(({ name }) => printable(name)).join(", ")}.` : "",
    unheard.length > 0 ? `Not heard: ${unheard.map(({ name }) => printable(name)).join(", ")}.` : "",
    moving.length > 1
      ? "Then pluck them all again: each string that is tuned moves the others a little."
      : "",
  ].filter((sentence) => sentence !== "");
}

function said({ name, deviationCents }: StringDocument): string {
  return `${printable(name)} by ${aboutCents(deviationCents ?? 0)} cents`;
}
