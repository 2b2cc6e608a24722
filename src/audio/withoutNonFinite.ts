/** Beyond this a value can't be sound: 60 dB above full scale. The recording survey counts and reports such values. */
export const LARGEST_SAMPLE = 1000;

/** The samples with everything that is not a finite, possible amplitude replaced by 0; the same array where all are. */
export function withoutNonFinite(samples: Float32Array): Float32Array {
  let clean = samples;
  for (let i = firstSuspect(samples, 0); i < samples.length; i = firstSuspect(samples, i + 1)) {
    if (Math.abs(samples[i]) <= LARGEST_SAMPLE) continue;
    if (clean === samples) clean = samples.slice();
    clean[i] = 0;
  }
  return clean;
}

/** Where the next sample stands that needs a closer look, from `start` on: four at a time are cleared by their power. */
function firstSuspect(samples: Float32Array, start: number): number {
  let i = start;
  for (; i + 4 <= samples.length; i += 4) {
    const a = samples[i];
    const b = samples[i + 1];
    const c = samples[i + 2];
    const d = samples[i + 3];
    if (!(a * a + b * b + c * c + d * d <= LARGEST_SAMPLE * LARGEST_SAMPLE)) return i;
  }
  return i;
}
