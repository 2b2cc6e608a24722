import { takeReference } from "../../src/reading/takeReference.js";
import { pairsInTurn } from "../../src/strings/pairsInTurn.js";
import { handMadeDocument, handMadeString, handMadeTake } from "./handMade.js";

/** A string for a take of several: its target, how far off it is, and how sure that is. */
export interface PlannedString {
  readonly name: string;
  readonly targetHz: number;
  readonly offCents: number;
  /** Half width of the 95 % interval; null for none. */
  readonly half?: number | null;
  readonly role?: "melody" | "drone" | "trompette";
}

interface PlanOptions {
  readonly anchor?: string;
  readonly instrument?: string | null;
  readonly tonic?: string | null;
}

/** The document of one take of strings bowed in turn, with pairs and own errors as they follow from the pitches. */
export function plannedDocument(planned: readonly PlannedString[], options: PlanOptions = {}) {
  const read = planned.map(({ name, targetHz, offCents, half = 0.2, role = "drone" }) =>
    handMadeString({
      name,
      role,
      targetHz,
      frequencyHz: targetHz * 2 ** (offCents / 1200),
      deviationCents: offCents,
      interval95Cents: half === null ? null : [offCents - half, offCents + half],
      ownErrorCents: null,
    }),
  );
  const { anchor, instrument = "Pear, low", tonic = "C" } = options;
  const reference = takeReference(read, [], { a4Hz: 440, ...(anchor === undefined ? {} : { anchor }) });
  const take = handMadeTake({ ...reference, pairs: pairsInTurn(reference.strings) });
  const document = handMadeDocument([take], { instrument, ...(anchor === undefined ? {} : { anchor }) });
  document.settings.tonic = tonic;
  return document;
}
