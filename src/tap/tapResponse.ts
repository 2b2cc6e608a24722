import { thirdOctaveBands } from "../body/bandEdges.js";
import { REFERENCE_RANGE_HZ } from "../body/bodyPolicy.js";
import { median } from "../signal/median.js";
import { sharedFft } from "../signal/sharedFft.js";
import { sampleSpread } from "../statistics/sampleSpread.js";
import { tQuantile } from "../statistics/tQuantile.js";
import type { TapBand } from "./TapReading.js";

const BEFORE_SECONDS = 0.004;
const MOST_SECONDS = 0.6;
/** A band must stand over the noise by this in a tap. */
const LEAST_OVER_NOISE = 4;
const LEAST_TAPS = 3;

/**
 * Energy of the taps by third-octaves (IEC 61260-1 edges, ideal), each tap against its own middle: what the body, the push of
 * the finger (which falls off towards the highs) and the room make of a tap.
 *
 * @param onsets - of the taps used, in samples
 * @param length - from the onset, in samples
 * @param pauses - what is heard where nothing was tapped, for the noise
 */
export function tapResponse(
  samples: Float64Array,
  rateHz: number,
  onsets: readonly number[],
  length: number,
  pauses: Float64Array,
): TapBand[] {
  const before = Math.round(BEFORE_SECONDS * rateHz);
  const count = Math.min(length, Math.round(MOST_SECONDS * rateHz)) + before;
  const noise = bandEnergies(pauses, rateHz).map((energy) => (energy * count) / Math.max(1, pauses.length));
  const levels = onsets.map((onset) => {
    const energies = bandEnergies(
      samples.subarray(Math.max(0, onset - before), onset - before + count),
      rateHz,
    );
    const level = energies.map((energy, b) =>
      energy > LEAST_OVER_NOISE * noise[b]! && energy > 0 ? 10 * Math.log10(energy - noise[b]!) : null,
    );
    const reference = level.filter((value, b): value is number => value !== null && isReference(b));
    return reference.length < LEAST_TAPS
      ? null
      : level.map((value) => (value === null ? null : value - median(reference)));
  });
  return thirdOctaveBands.map(({ midbandHz }, b) => {
    const values = levels.flatMap((level) => (level?.[b] === null || level === null ? [] : [level[b]!]));
    const { mean, standardDeviation } = sampleSpread(values);
    // Of a band that few taps drive over the noise, those few are a selection.
    if (mean === null || values.length * 2 <= onsets.length) {
      return { frequencyHz: midbandHz, levelDb: null, interval95Db: null };
    }
    const half =
      values.length < LEAST_TAPS || standardDeviation === null
        ? null
        : (tQuantile(0.975, values.length - 1) * standardDeviation) / Math.sqrt(values.length);
    return {
      frequencyHz: midbandHz,
      levelDb: mean,
      interval95Db: half === null ? null : ([mean - half, mean + half] as const),
    };
  });
}

function isReference(band: number): boolean {
  const { midbandHz } = thirdOctaveBands[band]!;
  return midbandHz > REFERENCE_RANGE_HZ.from && midbandHz < REFERENCE_RANGE_HZ.to;
}

function bandEnergies(samples: Float64Array, rateHz: number): number[] {
  // Padded, so that the lowest band holds enough bins for its edges not to matter.
  const fft = sharedFft(2 ** Math.ceil(Math.log2(Math.max(samples.length, 2 * rateHz))));
  const values = new Float64Array(fft.size);
  values.set(samples);
  const out = new Float64Array(2 * fft.size);
  fft.real(out, values);
  const binHz = rateHz / fft.size;
  return thirdOctaveBands.map(({ lowerHz, upperHz }) => {
    let energy = 0;
    for (let i = Math.ceil(lowerHz / binHz); i * binHz < upperHz && i < fft.size / 2; i++) {
      energy += out[2 * i]! ** 2 + out[2 * i + 1]! ** 2;
    }
    return energy / fft.size;
  });
}
