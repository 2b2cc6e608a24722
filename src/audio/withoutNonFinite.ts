/** Beyond this a value can't be sound: 60 dB above full scale. The recording survey counts and reports such values. */
export const LARGEST_SAMPLE = 1000;

/** The samples with everything that is not a finite, possible amplitude replaced by 0; the same array where all are. */
export function withoutNonFinite(samples: Float32Array): Float32Array {
  let clean = samples;
  for (let i = 0; i < samples.length; i++) {
    if (Math.abs(samples[i]) <= LARGEST_SAMPLE) continue;
    if (clean === samples) clean = samples.slice();
    clean[i] = 0;
  }
  return clean;
}
