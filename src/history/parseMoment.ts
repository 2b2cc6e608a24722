/** A date, or a date with a time of day, as a wall clock has it. */
export interface Moment {
  /** `2026-03-01`, `2026-03-01T14:30` or `2026-03-01T14:30:05`. */
  readonly text: string;
  readonly hasTime: boolean;
  /** Days since 1970-01-01; noon where no time is given. */
  readonly days: number;
}

const HOURS_A_DAY = 24;
const MS_A_DAY = 86_400_000;

/**
 * Reads a date (ISO 8601: year, month, day), with or without a time of day after `T` or a space. There is no time zone: the clock
 * on the wall where the take was made.
 *
 * @returns null for what is no such date, and for a day that the calendar does not have
 */
export function parseMoment(given: string): Moment | null {
  const parts = /^(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d))?)?$/.exec(given);
  if (parts === null) return null;
  const [year, month, day, hour, minute, second] = parts.slice(1).map((part) => Number(part ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const midnight = new Date(Date.UTC(year, month - 1, day));
  // Date.UTC goes on into the next month; years below 100 it takes for those after 1900.
  if (midnight.getUTCFullYear() !== year || midnight.getUTCMonth() !== month - 1) return null;
  if (midnight.getUTCDate() !== day || hour > 23 || minute > 59 || second > 59) return null;
  const hasTime = parts[4] !== undefined;
  const hours = hasTime ? hour + minute / 60 + second / 3600 : HOURS_A_DAY / 2;
  return {
    text: given.replace(" ", "T"),
    hasTime,
    days: midnight.getTime() / MS_A_DAY + hours / HOURS_A_DAY,
  };
}
