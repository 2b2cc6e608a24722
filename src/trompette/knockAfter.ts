import type { FineStroke } from "./FineStroke.js";
import { FINE_HOP_SECONDS } from "./fineCourse.js";
import { type KnockCase, type LikelyKnock, likelyKnock } from "./likelyKnock.js";

const ATTACK_SECONDS = 0.009;
/** The first knock lies from here on after the stroke of the wheel, to a period later; beyond that the farther the less likely. */
const FIRST_SECONDS = -0.002;
/** The wheel's stroke is known no better than this; beyond half of what is stated its chances fall as a t distribution of 3 degrees. */
const LEAST_WITHIN_SECONDS = 0.006;
const DEGREES = 3;
/** What the stroke before leaves in the room does not count; but so much before a stroke always does. */
const AFTER_END_SECONDS = 0.006;
const LEAST_BEFORE_SECONDS = 0.015;
const EARLIEST_SECONDS = 0.02;
const EARLIER_SECONDS = 0.005;
const EDGE_SECONDS = 0.004;
const LATEST_SECONDS = 0.015;
const LATEST_PERIODS = 2.2;
/** So much of the buzz counts. */
const BUZZ_SECONDS = 0.035;
const LEAST_BUZZ_SECONDS = 0.03;

/** Where the first loud knock of a stroke lies, in seconds after the stroke: 2.5, 50 and 97.5 %. */
export function knockAfter(
  { strokeSeconds, withinSeconds, endSeconds, endBeforeSeconds, course: { firstSeconds } }: FineStroke,
  look: Pick<KnockCase, "course" | "peaks" | "period" | "chances" | "spreadDb">,
  stringHz: number,
): LikelyKnock {
  const begin = firstSeconds - strokeSeconds;
  const count = look.course.length;
  const frame = (seconds: number) => Math.round((seconds - begin) / FINE_HOP_SECONDS);
  const seconds = (at: number) => at * FINE_HOP_SECONDS + begin;
  const within = Math.max(withinSeconds, LEAST_WITHIN_SECONDS);
  const before = Math.min(
    endBeforeSeconds + AFTER_END_SECONDS,
    -Math.max(LEAST_BEFORE_SECONDS, within + LEAST_WITHIN_SECONDS),
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
  const [low, middle, high] = likelyKnock({
    ...look,
    from,
    earliest,
    latest,
    to: Math.max(latest, buzzTo),
    attack: ATTACK_SECONDS / FINE_HOP_SECONDS,
    logPrior,
  });
  return [seconds(low), seconds(middle), seconds(high)];

  function logPrior(at: number): number {
    const after = seconds(at);
    const beyond = Math.max(0, FIRST_SECONDS - after, after - 1 / stringHz);
    return (-(DEGREES + 1) / 2) * Math.log(1 + (beyond / (within / 2)) ** 2 / DEGREES);
  }
}
