import type { InstrumentKey, StringKey } from "./InstrumentFields.js";

const textKeys: ReadonlySet<InstrumentKey | StringKey> = new Set([
  "name",
  "temperament",
  "tonic",
  "drones",
  "role",
  "note",
  "material",
] as const);

/** Whole or with a fraction; a comma for the decimal point is common where this is typed. */
const numberText = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?$/i;

/**
 * What is written into the file for the text of a field: a text, a number, or a list of numbers (`2, 4`); null for an empty one.
 * What was to be a number and is none stays a text, so that the check of the file can tell.
 */
export function fieldValue(
  key: InstrumentKey | StringKey,
  text: string,
): string | number | (string | number)[] | null {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (textKeys.has(key)) return trimmed;
  if (key !== "capo") return numberOf(trimmed);
  const parts = trimmed.split(/[\s,;[\]]+/).filter((part) => part !== "");
  return parts.length === 0 ? trimmed : parts.map(numberOf);
}

function numberOf(text: string): number | string {
  const value = numberText.test(text) ? Number(text.replace(",", ".")) : Number.NaN;
  return Number.isFinite(value) ? value : text;
}
