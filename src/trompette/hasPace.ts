/** A pattern of so many gaps may repeat: long and short ones, as players beat them. */
const LONGEST_PATTERN = 4;
/** Even gaps agree to within this share with their neighbours, in seven of ten places or more ... */
const EVEN_SHARE = 0.25;
const LEAST_EVEN = 0.7;
const LEAST_AGREED = 2;
/** ... and whole patterns more closely, in most of them: sums of several gaps agree sooner by chance. */
const PATTERN_SHARE = 0.08;
const LEAST_REPEATED = 0.7;
const LEAST_COMPARED = 5;

/** With strokes missed here and there, most gaps are once, twice or three times the usual one, nearly. */
const LEAST_GAPS = 7;
const MOST_TIMES = 3;
const TIMES_SHARE = 0.15;
const LEAST_WHOLE = 0.85;

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
    const count = agreed.filter(Boolean).length;
    const [least, needed] =
      pattern === 1 ? [LEAST_AGREED, LEAST_EVEN] : [LEAST_REPEATED * LEAST_COMPARED, LEAST_REPEATED];
    if (count >= least && count >= needed * agreed.length) return true;
  }
  return isOnGrid(moments);
}

function isOnGrid(moments: readonly number[]): boolean {
  const gaps = moments.slice(1).map((one, i) => one - moments[i]);
  if (gaps.length < LEAST_GAPS) return false;
  const sorted = [...gaps].sort((a, b) => a - b);
  return [sorted.length >> 1, sorted.length >> 2].some((place) => {
    const usual = sorted[place];
    const whole = gaps.filter((gap) => {
      const times = Math.round(gap / usual);
      return times >= 1 && times <= MOST_TIMES && Math.abs(gap / usual - times) < TIMES_SHARE;
    });
    return whole.length >= LEAST_WHOLE * gaps.length;
  });
}
