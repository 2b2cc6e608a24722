/** Where a first knock is put, in frames. */
export interface PlacedKnock {
  /** 2.5, 50 and 97.5 % of the chances. */
  readonly earliest: number;
  readonly middle: number;
  readonly latest: number;
  /** The place about which most of the chances lie within the reach asked for. */
  readonly at: number;
  /** From there so far lie all of the chances but the share that may be left out, if evidence counts for less than it seems to. */
  readonly cautiousReach: number;
}

const TAIL = 0.025;
/** Of places that hold as much but for so little, the one that holds the most well within reach; of these the one nearest to the middle ... */
const ALIKE_SHARE = 0.005;
/** ... a frame farther away must hold so much more. */
const SHARE_A_FRAME = 0.002;
/** A chance so far within reach counts whole, one at its very end little: a frame or two of error would put it beyond. */
const EDGE_FRAMES = 6;
/** So much of the evidence is taken to be independent where being wrong matters: what hides or feigns one knock does so to its neighbours. */
const CAUTIOUS_SHARE = 0.5;

/**
 * Where to put an event of which the logarithm of its chance is known at each frame.
 *
 * The middle of the chances may lie between two rivals, within reach of neither; so the place is the one that has most of them within
 * reach, and not at its very end.
 *
 * @param logs - of the chances, in any unit, one a frame
 * @param first - frame of the first of them
 * @param reach - frames to each side within which the place is to be right
 * @param leftOut - share of the cautious chances that may lie beyond `cautiousReach`
 */
export function placedKnock(
  logs: readonly number[],
  first: number,
  reach: number,
  leftOut: number,
): PlacedKnock {
  const sums = sumsOf(logs, 1);
  const quantile = (share: number) => sums.findIndex((sum) => sum >= share) - 1;
  const middle = quantile(0.5);
  const held = logs.map((_, i) => within(sums, i, reach));
  const least = Math.max(...held) - ALIKE_SHARE;
  let at = middle;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < logs.length; i++) {
    if (held[i] < least) continue;
    const wellHeld = wellWithin(sums, i, reach) - SHARE_A_FRAME * Math.abs(i - middle);
    if (wellHeld > most) [at, most] = [i, wellHeld];
  }
  const cautious = sumsOf(logs, CAUTIOUS_SHARE);
  let cautiousReach = 0;
  while (cautiousReach < logs.length && within(cautious, at, cautiousReach) < 1 - leftOut) cautiousReach++;
  return {
    earliest: first + quantile(TAIL),
    middle: first + middle,
    latest: first + quantile(1 - TAIL),
    at: first + at,
    cautiousReach,
  };
}

/** Chances before each frame, from 0 to 1, one more than there are frames. */
function sumsOf(logs: readonly number[], share: number): number[] {
  const top = Math.max(...logs);
  const chances = logs.map((value) => Math.exp(share * (value - top)));
  const total = chances.reduce((sum, chance) => sum + chance, 0);
  const sums = [0];
  for (const [i, chance] of chances.entries()) sums.push(sums[i] + chance / total);
  sums[logs.length] = 1;
  return sums;
}

function within(sums: readonly number[], at: number, reach: number): number {
  return sums[Math.min(sums.length - 1, at + reach + 1)] - sums[Math.max(0, at - reach)];
}

/** Chances within reach, those near its end counting for less the nearer. */
function wellWithin(sums: readonly number[], at: number, reach: number): number {
  let sum = 0;
  for (let less = 0; less < EDGE_FRAMES; less++) sum += within(sums, at, Math.max(0, reach - less));
  return sum / EDGE_FRAMES;
}
