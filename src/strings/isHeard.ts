import type { PartialPower } from "./MeasuredPassage.js";

/** A partial less than this above the noise of a frame has no level worth printing (its error passes 2 dB). */
const LEAST_SIGNAL_TO_NOISE = 2;

/** True for a partial of one string alone that stands out of the noise. */
export function isHeard({ power, signalToNoise, shared }: PartialPower): boolean {
  return !shared && power > 0 && (signalToNoise === null || signalToNoise >= LEAST_SIGNAL_TO_NOISE);
}
