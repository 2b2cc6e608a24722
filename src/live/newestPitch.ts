import { median } from "../signal/median.js";

/** The means that are compared are taken over this long, ending so often. */
export const MEAN_SECONDS = 0.5;
export const MEAN_STEP_SECONDS = 0.25;
/** Means that differ by less than this are of one pitch, however evenly the wheel turns ... */
const LEAST_TOLERANCE_CENTS = 3;
/** ... and by more than this they are not, however it swings. */
const LARGEST_TOLERANCE_CENTS = 6;
/** As long as too little was heard to know the swing: 3 cents at 0.8 turns a second leave 2.3 up and down in means over half a second. */
const USUAL_TOLERANCE_CENTS = 4.5;
/** Second differences of a swinging series, as the distance between its extremes (1.3 times fits 0.7 to 1.5 turns a second). */
const SWING_SHARE = 1.3;
const LEAST_FOR_SWING = 8;
/** It stands (again) where the means lie closer to the newest than this share of the tolerance ... */
const STANDING_SHARE = 0.8;
/** ... and are so many: the first two share half of their sound. */
const LEAST_STANDING = 3;
/** Where all agree, each with the mean of those after it, it moves slowly if the first and the last differ by this share. */
const MOVED_SHARE = 1.2;
/** No more of the past is averaged in any case than 4 s. */
const MOST_MEANS = 15;
/** While it moves, so much of the past is averaged that it lags by no more than this ... */
const LAG_CENTS = 1.5;
/** ... but not less than half a second, which the swing of the wheel would move about, nor more than so much. */
const LONGEST_MOVING_SECONDS = 1.5;

/** How much of the past is of the pitch that a string has now. */
export interface NewestPitch {
  /** Infinity where nothing says otherwise. */
  readonly seconds: number;
  readonly isMoving: boolean;
}

/**
 * How far back the pitch of a string is what it is now, so that a moving one is not averaged with what it was.
 *
 * From the newest mean back, as long as each agrees with the mean of those after it. What the wheel's swing does to means is
 * read from their second differences, which are blind to a pitch that moves evenly and hardly see one that
 * starts or stops. Our own policy; `tests/live` holds it to a turned peg.
 *
 * @param means - means of the pitch over {@link MEAN_SECONDS} in cents, the newest first, each {@link MEAN_STEP_SECONDS} before the last
 */
export function newestPitch(means: readonly number[]): NewestPitch {
  const tolerance = toleranceOf(means);
  const looked = means.slice(0, MOST_MEANS);
  let sum = 0;
  let count = 0;
  while (count < looked.length && (count === 0 || Math.abs(looked[count] - sum / count) <= tolerance)) {
    sum += looked[count++];
  }
  const isWhole = count === looked.length;
  const awayCents = (index: number) => Math.abs(looked[0] - looked[index]);
  if (isWhole && (count === 0 || awayCents(count - 1) <= MOVED_SHARE * tolerance)) {
    return { seconds: Number.POSITIVE_INFINITY, isMoving: false };
  }
  const spanOf = (means: number) => MEAN_SECONDS + (means - 1) * MEAN_STEP_SECONDS;
  let standing = count;
  while (standing > 1 && awayCents(standing - 1) > STANDING_SHARE * tolerance) standing--;
  if (standing >= LEAST_STANDING) return { seconds: spanOf(standing), isMoving: false };
  const centsPerSecond =
    looked.length > 2 ? awayCents(2) / (2 * MEAN_STEP_SECONDS) : awayCents(1) / MEAN_STEP_SECONDS;
  const longest = Math.max(MEAN_SECONDS, Math.min(LONGEST_MOVING_SECONDS, (2 * LAG_CENTS) / centsPerSecond));
  return { seconds: Math.min(spanOf(count), longest), isMoving: true };
}

function toleranceOf(means: readonly number[]): number {
  if (means.length < LEAST_FOR_SWING) return USUAL_TOLERANCE_CENTS;
  const second = means.slice(4).map((value, i) => Math.abs(value - 2 * means[i + 2] + means[i]));
  return Math.min(LARGEST_TOLERANCE_CENTS, Math.max(LEAST_TOLERANCE_CENTS, SWING_SHARE * median(second)));
}
