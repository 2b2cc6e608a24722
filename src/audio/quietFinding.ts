import { amplitudeToDb } from "../units/decibels.js";
import type { Finding } from "./Finding.js";

/** Peaks below these: the noise of converter and preamplifier comes near the weaker partials (common practice). */
const QUIET_PEAK_DB = -40;
const UNUSABLE_PEAK_DB = -60;

/**
 * What is to be said of how quiet a recording is; null where it is loud enough.
 *
 * @param peak - the largest distance of a sample from its channel's mean, 1 at full scale
 */
export function quietFinding(peak: number): Finding | null {
  if (peak === 0) return { code: "too-quiet", severity: "problem", values: {} };
  const peakDb = amplitudeToDb(peak);
  if (peakDb >= QUIET_PEAK_DB) return null;
  const severity = peakDb < UNUSABLE_PEAK_DB ? "problem" : "warning";
  return { code: "too-quiet", severity, values: { peakDb } };
}
