import type { MicrophoneResponse } from "./MicrophoneResponse.js";

/**
 * Response of a microphone at a frequency in decibels: on a straight line over the logarithm of the frequency between the
 * points on either side; beyond the first and the last point, what that one says.
 */
export function microphoneDb({ points }: MicrophoneResponse, frequencyHz: number): number {
  const above = points.findIndex((point) => point.frequencyHz >= frequencyHz);
  if (above === 0) return points[0].levelDb;
  if (above < 0) return points[points.length - 1].levelDb;
  const [low, high] = [points[above - 1], points[above]];
  const share = Math.log(frequencyHz / low.frequencyHz) / Math.log(high.frequencyHz / low.frequencyHz);
  return low.levelDb + share * (high.levelDb - low.levelDb);
}
