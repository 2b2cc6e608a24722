/** A pattern of so many gaps may repeat: long and short ones, as players beat them. */
const LONGEST_PATTERN = 4;
/** Even gaps agree to within this share with their neighbours, in half of the places or more ... */
const EVEN_SHARE = 0.25;
const LEAST_EVEN = 0.5;
/** ... and whole patterns more closely, in most of them: sums of several gaps agree sooner by chance. */
const PATTERN_SHARE = 0.08;
const LEAST_REPEATED = 0.7;
const LEAST_COMPARED = 5;

/**
 * True where moments follow each other at a pace, or in a pattern that repeats: strokes of the wrist do, for the wheel turns evenly;
 * notes, coughs and knocks seldom do.
 *
 * @param moments - in order of time
 */
export function hasPace(moments: readonly number[]): boolean {
  for (let pattern = 1; pattern <= LONGEST_PATTERN; pattern++) {
    const agreed: boolean[] = [];
    for (let i = 0; i + 2 * pattern < moments.length; i++) {
      const first = moments[i + pattern] - moments[i];
      const second = moments[i + 2 * pattern] - moments[i + pattern];
      const share = pattern === 1 ? EVEN_SHARE : PATTERN_SHARE;
      agreed.push(Math.abs(second - first) < share * Math.min(first, second));
    }
    const share = agreed.filter(Boolean).length / Math.max(1, agreed.length);
    if (
      pattern === 1
        ? share >= LEAST_EVEN && agreed.length > 0
        : share >= LEAST_REPEATED && agreed.length >= LEAST_COMPARED
    )
      return true;
  }
  return false;
}
