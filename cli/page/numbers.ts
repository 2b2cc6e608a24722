import { intervalText, signed } from "../../src/index.js";

/** The sign between units and tenths where the page is read. */
const decimalSign =
  new Intl.NumberFormat(undefined, { minimumFractionDigits: 1 })
    .formatToParts(1.5)
    .find(({ type }) => type === "decimal")?.value ?? ".";

/** Digits are those that the sheets of the command print; only the sign between them goes by the reader's habit. */
const localised = (text: string) => text.replaceAll(".", decimalSign);

/** What stands where a value can't be had. */
const NOTHING = "-";

export function numberText(value: number | null, digits: number): string {
  return value === null ? NOTHING : localised(value.toFixed(digits));
}

export function signedText(value: number | null, digits: number): string {
  return value === null ? NOTHING : localised(signed(value, digits));
}

export function rangeText(interval: readonly [number, number] | null, digits: number): string {
  return interval === null ? NOTHING : localised(intervalText(interval, digits));
}

/** A number without a sign as people of any habit write it; null where it is none. */
export function readNumber(text: string): number | null {
  const value = readSignedNumber(text);
  return text.trim().startsWith("-") ? null : value;
}

/** A number as people of any habit write it, perhaps with a minus; null where it is none. */
export function readSignedNumber(text: string): number | null {
  const trimmed = text.trim().replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(trimmed) ? Number(trimmed) : null;
}

export function dateText(milliseconds: number): string {
  return new Date(milliseconds).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}
