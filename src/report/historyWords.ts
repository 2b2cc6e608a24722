import type { HistoryDocument } from "../history/historyDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";

type InstrumentDocument = HistoryDocument["instruments"][number];
type Interval = readonly [number, number];

const HOURS_A_DAY = 24;
/** A minute in days; takes nearer than that are told as of one time. */
const MINUTE = 1 / 1440;

/** Date and time of a take; a tilde marks the time of the file. */
export function takenText({ takenAt, takenAtBasis }: InstrumentDocument["takes"][number]): string {
  return `${takenAt.slice(0, 16).replace("T", " ")}${takenAtBasis === "file-time" ? "~" : ""}`;
}

/** `in 6 days`, `in 3 hours`, `at one time`. */
export function spanText(days: number): string {
  if (days < MINUTE) return "at one time";
  const [count, unit] =
    days >= 0.95
      ? [Math.round(days), "day"]
      : days * HOURS_A_DAY >= 0.95
        ? [Math.round(days * HOURS_A_DAY), "hour"]
        : [Math.max(1, Math.round(days / MINUTE)), "minute"];
  return `in ${count} ${unit}${count === 1 ? "" : "s"}`;
}

/** `0.8`: half the width of a range, rounded up. */
export function halfText([low, high]: Interval, digits: number): string {
  const unit = 10 ** digits;
  return (Math.ceil(((high - low) / 2) * unit - 1e-6) / unit).toFixed(digits);
}

/** `4.2 ± 0.8`, without a sign. */
export function sizeText(value: number, interval: Interval | null, digits = 1): string {
  return `${Math.abs(value).toFixed(digits)}${interval === null ? "" : ` ± ${halfText(interval, digits)}`}`;
}

/** `(95 % between -0.8 and -0.5, 8 takes)`. */
export function sureText(interval: Interval, takeCount: number, digits: number): string {
  return `(95 % between ${intervalText(interval, digits).replace(" to ", " and ")}, ${takeCount} takes)`;
}

/** Whether a range leaves out no change at all. */
export function leavesOutZero(interval: Interval | null): boolean {
  return interval !== null && (interval[0] > 0 || interval[1] < 0);
}

/** `C2, G2 and C3`. */
export function namesText(names: readonly string[]): string {
  const all = names.map(printable);
  return all.length < 2 ? all.join("") : `${all.slice(0, -1).join(", ")} and ${all.at(-1)}`;
}

/** Name of an instrument, or what to call takes that named none. */
export function instrumentText(name: string | null): string {
  return name === null ? "No instrument named" : printable(name);
}
