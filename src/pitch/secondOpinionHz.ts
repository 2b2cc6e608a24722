import { YIN } from "pitchfinder";
import { median } from "../signal/median.js";

const FRAME_SECONDS = 0.128;
const FRAMES = 7;
/** The package's YIN depends on level: every frame is scaled to this peak. */
const PEAK = 0.5;

/**
 * What another method (YIN, de Cheveigne & Kawahara 2002, by the pitchfinder package) says of a passage: the median of
 * a few frames spread through it. Good for the octave, not for cents.
 *
 * @param samples - after decimation, 8 to 16 kHz
 * @returns hertz; null where most frames give nothing
 */
export function secondOpinionHz(samples: Float32Array, sampleRateHz: number): number | null {
  const size = Math.round(FRAME_SECONDS * sampleRateHz);
  const room = samples.length - size;
  if (room < 0) return null;
  const detect = YIN({ sampleRate: sampleRateHz });
  const found: number[] = [];
  for (let i = 0; i < FRAMES; i++) {
    const start = Math.floor((room * (i + 0.5)) / FRAMES);
    const frame = samples.slice(start, start + size);
    const peak = frame.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
    if (peak === 0) continue;
    const frequencyHz = detect(frame.map((value) => (value * PEAK) / peak));
    if (frequencyHz !== null && frequencyHz > 0 && frequencyHz < sampleRateHz / 2) found.push(frequencyHz);
  }
  return found.length > FRAMES / 2 ? median(found) : null;
}
