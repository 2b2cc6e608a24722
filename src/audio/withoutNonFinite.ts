import { blockEnergies } from "../signal/blockEnergies.js";

/** Beyond this a value can't be sound: 60 dB above full scale. The recording survey counts and reports such values. */
export const LARGEST_SAMPLE = 1000;

/** The samples with everything that is not a finite, possible amplitude replaced by 0; the same array where all are. */
export function withoutNonFinite(samples: Float32Array): Float32Array {
  if (samples.length === 0) return samples;
  const [energy] = blockEnergies(samples, samples.length);
  // No square is larger than the sum of all; mostly that settles it.
  if (energy <= LARGEST_SAMPLE * LARGEST_SAMPLE) return samples;
  let clean = samples;
  for (let i = 0; i < samples.length; i++) {
    if (Math.abs(samples[i]) <= LARGEST_SAMPLE) continue;
    if (clean === samples) clean = samples.slice();
    clean[i] = 0;
  }
  return clean;
}
