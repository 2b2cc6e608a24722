import type { LoggedTake } from "./logLineSchema.js";
import { type Moment, parseMoment } from "./parseMoment.js";

/** The takes of a day, or a moment, and later. A day begins at midnight; a take without a time of day is put at noon. */
export function takesSince(takes: readonly LoggedTake[], { days, hasTime }: Moment): readonly LoggedTake[] {
  const fromDays = hasTime ? days : Math.floor(days);
  return takes.filter(({ takenAt }) => parseMoment(takenAt)!.days >= fromDays);
}
