import type { MeasureDocument } from "../reading/measureDocumentSchema.js";

type TakeDocument = MeasureDocument["takes"][number];

/** Less than this is no reason to think of another pitch for the whole. Our policy. */
const leastOffsetCents = 3;
/** Of fewer strings nobody can say what "the rest" is. */
const leastStrings = 3;

/**
 * The offset that the strings have in common, where it is large and sure enough to give a choice: tune every string,
 * or keep the instrument at its own pitch. Null where it is not, and where an anchor has decided.
 */
export function wholeOffset(take: TakeDocument): { offsetCents: number; a4Hz: number } | null {
  const reference = take.referencePitch;
  if (!reference || reference.anchor !== null) return null;
  const { offsetCents, a4Hz, interval95Cents } = reference;
  if (Math.abs(offsetCents) < leastOffsetCents) return null;
  const deviations = take.strings.flatMap(({ deviationCents }) => deviationCents ?? []);
  if (deviations.length < leastStrings) return null;
  const isSure = interval95Cents
    ? Math.sign(interval95Cents[0]) === Math.sign(interval95Cents[1])
    : deviations.every((deviation) => Math.sign(deviation) === Math.sign(offsetCents));
  return isSure ? { offsetCents, a4Hz } : null;
}
