import type { FineStroke } from "./FineStroke.js";
import { FINE_HOP_SECONDS } from "./fineCourse.js";
import { type KnockCase, likelyKnock } from "./likelyKnock.js";
import { type PlacedKnock, placedKnock } from "./placedKnock.js";

const ATTACK_SECONDS = 0.009;
/** The first knock lies from here on after the stroke of the wheel, to a period later; beyond that the farther the less likely. */
const FIRST_SECONDS = -0.002;
/** The wheel's stroke is known no better than this; beyond half of what is stated its chances fall as a t distribution of 5 degrees. */
const LEAST_WITHIN_SECONDS = 0.006;
const DEGREES = 5;
/** What the stroke before leaves in the room need not be looked at; but so much before a stroke always is. */
const AFTER_END_SECONDS = 0.006;
const LEAST_BEFORE_SECONDS = 0.015;
const BEFORE_TIMES = 3;
const EARLIEST_SECONDS = 0.02;
const EARLIER_SECONDS = 0.005;
const EDGE_SECONDS = 0.004;
const LATEST_SECONDS = 0.015;
const LATEST_PERIODS = 2.2;
/** So much of the buzz counts. */
const BUZZ_SECONDS = 0.035;
const LEAST_BUZZ_SECONDS = 0.03;

/** The bar: known to this, less what a place in whole frames and the begin of a knock are off by. */
export const KNOWN_SECONDS = 0.0095;
/**
 * Chance, by the cautious reckoning, that an onset may lie beyond the bar and still be told as known to it, for strings of this period;
 * it goes with the square of the period. By takes with known onsets: the chances of low strings, of which one knock more or less does not
 * leave the bar, are overstated, those of high ones understated, where it takes several knocks in a row, hidden or feigned together.
 */
const LEFT_OUT = 0.019;
const LEFT_OUT_PERIOD_SECONDS = 1 / 260;
const LEFT_OUT_RANGE = [0.005, 0.1] as const;

/** Where the first loud knock of a stroke lies, in seconds after the stroke. */
export function knockAfter(
  { strokeSeconds, withinSeconds, endSeconds, endBeforeSeconds, course: { firstSeconds } }: FineStroke,
  look: Pick<KnockCase, "course" | "peaks" | "period" | "chances" | "spreadDb">,
  stringHz: number,
): PlacedKnock {
  const begin = firstSeconds - strokeSeconds;
  const count = look.course.length;
  const frame = (seconds: number) => Math.round((seconds - begin) / FINE_HOP_SECONDS);
  const seconds = (at: number) => at * FINE_HOP_SECONDS + begin;
  const within = Math.max(withinSeconds, LEAST_WITHIN_SECONDS);
  const before = Math.min(
    endBeforeSeconds + AFTER_END_SECONDS,
    -Math.max(LEAST_BEFORE_SECONDS, BEFORE_TIMES * within + LEAST_WITHIN_SECONDS),
  );
  const from = Math.max(1, frame(Math.max(begin + EDGE_SECONDS, before)));
  const earliest = Math.max(from + 2, frame(-Math.max(EARLIEST_SECONDS, 2 * within) - EARLIER_SECONDS));
  const latest = Math.max(
    earliest + 1,
    Math.min(
      count - Math.round(EDGE_SECONDS / FINE_HOP_SECONDS),
      frame(Math.max(LATEST_SECONDS, LATEST_PERIODS / stringHz + 2 * within)),
    ),
  );
  const buzzTo = Math.min(
    latest + Math.round(BUZZ_SECONDS / FINE_HOP_SECONDS),
    frame(Math.max(LEAST_BUZZ_SECONDS, endSeconds)),
    count,
  );
  const logs = likelyKnock({
    ...look,
    from,
    earliest,
    latest,
    to: Math.max(latest, buzzTo),
    attack: ATTACK_SECONDS / FINE_HOP_SECONDS,
    logPrior,
  });
  const leftOut = LEFT_OUT / (stringHz * LEFT_OUT_PERIOD_SECONDS) ** 2;
  const placed = placedKnock(
    logs,
    earliest,
    Math.round(KNOWN_SECONDS / FINE_HOP_SECONDS),
    Math.min(LEFT_OUT_RANGE[1], Math.max(LEFT_OUT_RANGE[0], leftOut)),
  );
  return {
    earliest: seconds(placed.earliest),
    middle: seconds(placed.middle),
    latest: seconds(placed.latest),
    at: seconds(placed.at),
    cautiousReach: placed.cautiousReach * FINE_HOP_SECONDS,
  };

  function logPrior(at: number): number {
    const after = seconds(at);
    const beyond = Math.max(0, FIRST_SECONDS - after, after - 1 / stringHz);
    return (-(DEGREES + 1) / 2) * Math.log(1 + (beyond / (within / 2)) ** 2 / DEGREES);
  }
}
