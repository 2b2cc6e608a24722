import { HIGHEST_EDGE_HZ, LOWEST_EDGE_HZ } from "./bandEdges.js";
import type { MicrophoneResponse } from "./MicrophoneResponse.js";

/** True where a response is known over all that the low-register measures look at, 44.7 to 2818.4 Hz. */
export function coversLowRegister({ points }: MicrophoneResponse): boolean {
  return points[0].frequencyHz <= LOWEST_EDGE_HZ && points[points.length - 1].frequencyHz >= HIGHEST_EDGE_HZ;
}
