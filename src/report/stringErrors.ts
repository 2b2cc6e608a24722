import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { errorVerdict, type Verdict } from "./errorVerdict.js";
import { wholeOffset } from "./wholeOffset.js";

type TakeDocument = MeasureDocument["takes"][number];
type StringDocument = TakeDocument["strings"][number];

/** How far a string is from where it is to go. */
export interface StringError {
  readonly string: StringDocument;
  readonly countedFrom: "target" | "whole" | "anchor";
  /** Sharp positive. */
  readonly errorCents: number;
  readonly interval95Cents: readonly [number, number] | null;
  readonly verdict: Verdict;
  /** Too far off for anything to be judged by it. */
  readonly isFar: boolean;
}

/** Beyond this a string is tuned first, and what it makes with others means nothing yet. Our policy. */
const farCents = 25;
/** Nobody turns a peg for less, unless a slow beat shows it. Our policy. */
const leastCents = 2;

/**
 * The errors of all measured strings, counted from one zero point for the whole sheet: the anchor where there is one, the
 * pitch the instrument has where all of it stands clearly sharp or flat, else the targets.
 */
export function stringErrors(take: TakeDocument): StringError[] {
  const anchor = take.referencePitch?.anchor ?? null;
  const whole = wholeOffset(take);
  const offsetCents = whole?.offsetCents ?? 0;
  const countedFrom = anchor !== null ? "anchor" : whole === null ? "target" : "whole";
  return take.strings.flatMap((string) => {
    const { deviationCents, frequencyHz, ownErrorCents, status } = string;
    if (status !== "measured" || deviationCents === null || frequencyHz === null) return [];
    const errorCents = anchor === null ? deviationCents - offsetCents : ownErrorCents;
    if (errorCents === null) return [];
    const interval = anchor === null ? string.interval95Cents : string.ownErrorInterval95Cents;
    const interval95Cents =
      interval === null || anchor !== null
        ? interval
        : ([interval[0] - offsetCents, interval[1] - offsetCents] as const);
    const isSmall = Math.abs(errorCents) < leastCents;
    return [
      {
        string,
        countedFrom,
        errorCents,
        interval95Cents,
        verdict: isSmall ? "good" : errorVerdict(errorCents, interval95Cents, frequencyHz),
        isFar: string.name !== anchor && Math.abs(errorCents) > farCents,
      },
    ];
  });
}
