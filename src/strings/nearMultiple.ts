/** Two strings of the instrument are mistuned by less than this share of their frequency (51 cents). */
const NEAR_SHARE = 0.03;

/** Which partial of a string lies where a frequency does, but for mistuning; null where none does. */
export function nearMultiple(frequencyHz: number, fundamentalHz: number): number | null {
  const number = Math.round(frequencyHz / fundamentalHz);
  return number >= 1 && Math.abs(frequencyHz / fundamentalHz / number - 1) < NEAR_SHARE ? number : null;
}
