/** A tap has rung off by then, as far as it will. */
const RUNG_OFF_SECONDS = 0.7;
const BEFORE_TAP_SECONDS = 0.02;
const LEAST_SECONDS = 0.12;
const MOST_SECONDS = 3;
/** A piece is no longer than this. */
const PIECE_SECONDS = 0.6;

/**
 * What is heard where nothing was tapped, in pieces: before the first tap, and late between taps. Where taps follow too quickly for that,
 * the last moments before each.
 *
 * @param onsets - in samples, rising
 */
export function pausesBetween(
  samples: Float64Array,
  rateHz: number,
  onsets: readonly number[],
): readonly Float64Array[] {
  const ends = [...onsets, samples.length];
  const cut = (fromSeconds: number, toSeconds: number) =>
    samples.slice(Math.max(0, Math.round(fromSeconds * rateHz)), Math.max(0, Math.round(toSeconds * rateHz)));
  const quiet = ends
    .map((end, i) => {
      const to = end / rateHz - BEFORE_TAP_SECONDS;
      const from = i === 0 ? 0.05 : ends[i - 1]! / rateHz + RUNG_OFF_SECONDS;
      return cut(Math.max(from, to - PIECE_SECONDS), Math.max(from, to));
    })
    .filter((piece) => piece.length >= LEAST_SECONDS * rateHz);
  if (quiet.length > 0) return quiet.slice(0, Math.ceil(MOST_SECONDS / PIECE_SECONDS));
  return onsets
    .map((onset) => cut(onset / rateHz - 3 * BEFORE_TAP_SECONDS, onset / rateHz - BEFORE_TAP_SECONDS))
    .filter((piece) => piece.length > 0);
}
