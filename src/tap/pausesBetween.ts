/** A tap has rung off by then, as far as it will. */
const RUNG_OFF_SECONDS = 0.7;
const BEFORE_TAP_SECONDS = 0.02;
const LEAST_SECONDS = 0.15;
const MOST_SECONDS = 4;

/**
 * What is heard where nothing was tapped, put together: before the first tap, and late between taps. Where taps follow too
 * quickly for that, the last moments before each.
 *
 * @param onsets - in samples, rising
 */
export function pausesBetween(
  samples: Float64Array,
  rateHz: number,
  onsets: readonly number[],
): Float64Array {
  const ends = [...onsets, samples.length];
  const quiet = ends.flatMap((end, i) => {
    const from = i === 0 ? 0.05 : ends[i - 1]! / rateHz + RUNG_OFF_SECONDS;
    return piece(samples, rateHz, from, end / rateHz - BEFORE_TAP_SECONDS);
  });
  const enough = quiet.length >= LEAST_SECONDS * rateHz;
  const found = enough
    ? quiet
    : onsets.flatMap((onset) =>
        piece(samples, rateHz, onset / rateHz - 3 * BEFORE_TAP_SECONDS, onset / rateHz - BEFORE_TAP_SECONDS),
      );
  return Float64Array.from(found.slice(0, MOST_SECONDS * rateHz));
}

function piece(samples: Float64Array, rateHz: number, fromSeconds: number, toSeconds: number): number[] {
  const from = Math.max(0, Math.round(fromSeconds * rateHz));
  return toSeconds * rateHz > from ? [...samples.subarray(from, Math.round(toSeconds * rateHz))] : [];
}
