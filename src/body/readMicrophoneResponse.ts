import { AnalysisError } from "../errors.js";
import type { MicrophoneResponse } from "./MicrophoneResponse.js";

const LOWEST_HZ = 1;
const HIGHEST_HZ = 200_000;
const LARGEST_DB = 60;
/** A measured response has some hundred points; a file with more lines than this is something else. */
const MOST_POINTS = 20_000;
/** Lines that begin so are remarks. */
const REMARK = /^[*#;"'/%!]/;
const SEPARATOR = /[\s,;]+/;
/** A comma between two digits beside another separator: "20,5 -3" is 20.5 Hz to one and 20 Hz at 5 dB to another. */
const COMMA_IN_NUMBER = /\d,\d/;
const OTHER_SEPARATOR = /[^,\s][\s;]+[^,\s]/;

/**
 * Reads a microphone's response as makers of measuring microphones supply it: text, on each line a frequency in hertz and
 * a level in decibels, parted by spaces, tabs, commas or semicolons; more columns (phase) are left aside. Remarks and lines
 * of words before the first numbers are skipped.
 *
 * @throws AnalysisError `microphone-invalid` with the line: for a line that holds no two numbers or decimal commas, frequencies that do not
 * rise, values out of range, fewer than two points
 * @example
 * ```ts
 * readMicrophoneResponse("* my microphone\n20 -3.0\n100 0.0\n20000 1.5").points.length; // 3
 * ```
 */
export function readMicrophoneResponse(text: string): MicrophoneResponse {
  const points: { frequencyHz: number; levelDb: number }[] = [];
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/);
  for (const [i, whole] of lines.entries()) {
    const line = whole.trim();
    if (line === "" || REMARK.test(line)) continue;
    const fields = line.split(SEPARATOR);
    const [frequencyHz, levelDb] = fields.map(Number);
    const fail = (
      problem: "decimal-comma" | "not-two-numbers" | "not-rising" | "out-of-range" | "too-many",
    ) => {
      throw new AnalysisError("microphone-invalid", { line: i + 1, problem });
    };
    if (fields.length < 2 || !Number.isFinite(frequencyHz) || !Number.isFinite(levelDb)) {
      // Headings such as "Frequency  dB" stand before the first numbers; the same further down is damage.
      if (points.length === 0 && !/^[-+.\d]/.test(line)) continue;
      fail("not-two-numbers");
    }
    if (COMMA_IN_NUMBER.test(line) && OTHER_SEPARATOR.test(line)) fail("decimal-comma");
    if (frequencyHz < LOWEST_HZ || frequencyHz > HIGHEST_HZ || Math.abs(levelDb) > LARGEST_DB)
      fail("out-of-range");
    if (points.length > 0 && frequencyHz <= points[points.length - 1].frequencyHz) fail("not-rising");
    if (points.length === MOST_POINTS) fail("too-many");
    points.push({ frequencyHz, levelDb });
  }
  if (points.length < 2) {
    throw new AnalysisError("microphone-invalid", { line: lines.length, problem: "too-few" });
  }
  return { points };
}
