import type { GroupMeans } from "../statistics/swingingSeries.js";
import type { KeyNote } from "./hearNotes.js";

/** Pitch of each key as its notes have it together. */
export interface PitchesOfKeys {
  readonly means: Float64Array;
  /** Covariance of the means, row by row. */
  readonly covariance: Float64Array;
}

/**
 * Puts the notes of each key together, each with its length. A key that is pressed harder the second time is not one pitch: what
 * its notes differ by beyond what their own movement explains is added to its variance.
 *
 * @param notes - what `pitches` are of
 * @param keys - those played
 */
export function pitchesOfKeys(
  pitches: GroupMeans,
  notes: readonly KeyNote[],
  keys: readonly number[],
): PitchesOfKeys {
  const count = notes.length;
  const weights = keys.map((key) => {
    const seconds = notes.map(({ key: own, note }) =>
      own === key ? note.endSeconds - note.startSeconds : 0,
    );
    const total = seconds.reduce((sum, value) => sum + value, 0);
    return seconds.map((value) => value / total);
  });
  const means = Float64Array.from(weights, (own) =>
    own.reduce((sum, weight, i) => sum + weight * pitches.means[i], 0),
  );
  const covariance = new Float64Array(keys.length ** 2);
  for (const [a, first] of weights.entries()) {
    for (const [b, second] of weights.entries()) {
      let sum = 0;
      for (let i = 0; i < count; i++) {
        if (first[i] === 0) continue;
        for (let j = 0; j < count; j++) sum += first[i] * second[j] * pitches.covariance[i * count + j];
      }
      covariance[a * keys.length + b] = sum;
    }
    covariance[a * keys.length + a] += betweenNotes(pitches, first, means[a]);
  }
  return { means, covariance };
}

/** Variance of a key's mean by what its notes differ. */
function betweenNotes({ means, covariance }: GroupMeans, weights: readonly number[], mean: number): number {
  const own = weights.flatMap((weight, i) => (weight > 0 ? [i] : []));
  if (own.length < 2) return 0;
  const spread = own.reduce((sum, i) => sum + (means[i] - mean) ** 2, 0) / (own.length - 1);
  const explained = own.reduce((sum, i) => sum + covariance[i * means.length + i], 0) / own.length;
  return Math.max(0, spread - explained) / own.length;
}
