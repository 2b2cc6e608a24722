const MS_A_MINUTE = 60_000;

/**
 * A moment by the clock on the wall, as a log has it: `2026-03-01T14:30:05`.
 *
 * @param milliseconds - since 1970-01-01 UTC
 * @param behindMinutes - how far the clock on the wall is behind UTC then, as `Date.prototype.getTimezoneOffset` gives it
 */
export function momentText(milliseconds: number, behindMinutes: number): string {
  return new Date(milliseconds - behindMinutes * MS_A_MINUTE).toISOString().slice(0, 19);
}
