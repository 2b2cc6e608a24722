import { hannWindow } from "../signal/hannWindow.js";

/** Steps of the table to a sample of the course. */
const FINENESS = 8;
/** A frame that ends this many frame lengths away sees nothing of the rise. */
const REACH_FRAMES = 0.5;

/**
 * How the power of a buzz rises as a course of frames shows it: the amplitude goes up as a raised cosine, the frames (a Hann window's
 * square weighs power) smear it.
 *
 * @param attackSeconds - time of the rise
 * @param frameSeconds - length of a frame
 * @param hopSeconds - from sample to sample of the course
 * @returns share of the full power, 0 to 1, at so many samples after the moment at which the amplitude passes half
 */
export function riseShape(
  attackSeconds: number,
  frameSeconds: number,
  hopSeconds: number,
): (samplesAfter: number) => number {
  const step = hopSeconds / FINENESS;
  const reach = Math.ceil((attackSeconds / 2 + REACH_FRAMES * frameSeconds) / step) + 1;
  const half = Math.max(1, Math.round(frameSeconds / step / 2));
  const weights = hannWindow(2 * half).map((value) => value * value);
  const total = weights.reduce((sum, value) => sum + value, 0);
  const table = Float64Array.from({ length: 2 * reach + 1 }, (_, i) => {
    let sum = 0;
    for (const [j, weight] of weights.entries()) sum += weight * powerAt((i - reach + j - half) * step);
    return sum / total;
  });
  return (samplesAfter) => {
    const place = samplesAfter * FINENESS + reach;
    if (place <= 0) return 0;
    if (place >= 2 * reach) return 1;
    const i = Math.floor(place);
    return table[i] + (place - i) * (table[i + 1] - table[i]);
  };

  function powerAt(seconds: number): number {
    const share = Math.min(1, Math.max(0, seconds / attackSeconds + 0.5));
    return (0.5 - 0.5 * Math.cos(Math.PI * share)) ** 2;
  }
}
