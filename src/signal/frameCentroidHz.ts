import * as meydaModule from "meyda";

interface Meyda {
  bufferSize: number;
  windowingFunction: string;
  extract(feature: "spectralCentroid", frame: Float32Array): number | null;
}

// The package is CommonJS: a bundler may hand its one export over directly or as `default`.
const meyda = ((meydaModule as { default?: unknown }).default ?? meydaModule) as Meyda;

const FRAME_SAMPLES = 2048;
/** More frames than this change the mean by less than it is printed with. */
const MOST_FRAMES = 24;

/**
 * Brightness of whole frames, tone and noise together: the amplitude-weighted spectral centroid (by the meyda package,
 * which gives it in bins), mean over frames spread through the samples.
 *
 * @param sampleRateHz - rate of `samples`; everything up to half of it counts
 * @returns hertz; null for fewer samples than one frame (2048) or for silence
 */
export function frameCentroidHz(samples: Float32Array, sampleRateHz: number): number | null {
  const room = samples.length - FRAME_SAMPLES;
  if (room < 0) return null;
  // Size and window are global state of the package: set them each time.
  meyda.bufferSize = FRAME_SAMPLES;
  meyda.windowingFunction = "hanning";
  const count = Math.min(MOST_FRAMES, 1 + Math.floor(room / FRAME_SAMPLES));
  let sum = 0;
  let used = 0;
  for (let i = 0; i < count; i++) {
    const start = count === 1 ? 0 : Math.floor((room * i) / (count - 1));
    const bins = meyda.extract("spectralCentroid", samples.slice(start, start + FRAME_SAMPLES));
    if (bins === null || !Number.isFinite(bins)) continue;
    sum += bins;
    used++;
  }
  return used === 0 ? null : ((sum / used) * sampleRateHz) / FRAME_SAMPLES;
}
