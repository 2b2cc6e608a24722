import { amplitudeToDb } from "../units/decibels.js";

/** A gain that fades further than this says nothing any more. */
const LEAST_GAIN = 0.03;

/** Amplitude ratios in decibels. */
export function levelsOfGain(gain: Float64Array): Float64Array {
  return gain.map((value) => amplitudeToDb(Math.max(LEAST_GAIN, value)));
}
