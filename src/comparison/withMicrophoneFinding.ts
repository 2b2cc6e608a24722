import { coversLowRegister } from "../body/coversLowRegister.js";
import type { MicrophoneResponse } from "../body/MicrophoneResponse.js";
import type { Comparison } from "./Comparison.js";

/**
 * A comparison with a word about the microphone's response that was taken off, where it does not cover the low register.
 *
 * @param response - null where none was
 */
export function withMicrophoneFinding(
  comparison: Comparison,
  response: MicrophoneResponse | null,
): Comparison {
  if (response === null || coversLowRegister(response)) return comparison;
  const { points } = response;
  const values = { fromHz: points[0].frequencyHz, toHz: points[points.length - 1].frequencyHz };
  return {
    ...comparison,
    findings: [...comparison.findings, { code: "microphone-short", severity: "warning", values }],
  };
}
