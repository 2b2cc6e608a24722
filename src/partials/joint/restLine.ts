import { smoothInto } from "../smoothFrames.js";
import { FrameScratch } from "./FrameScratch.js";
import type { JointState, JointString } from "./JointState.js";
import { meanSquare } from "./meanSquare.js";
import { neighbours } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";

/** What the strings found leave at the partials of one that was not found. */
export interface RestLine {
  /** The strongest of those partials. */
  readonly frequencyHz: number;
  /** Power at all of them against that of the passage, in dB. */
  readonly levelDb: number;
}

const scratch = new FrameScratch();
/** The lowest partials hold most of a string's power. */
const HIGHEST_NUMBER = 6;
/** Of the power there. Where a bow presses harder, or nearer to the bridge, a partial that is known leaves a few hundredths. */
const LEAST_LEFT = 0.15;
/** A strong line this far off still shows in smoothed frames, so the lines of strings found are taken out as far. */
const REACH_HZ = 20;

/**
 * Looks for sound that no string found explains, where it hides from the spectrum: at partials that a string not found would
 * share with those found. A string that moved, or sounded for part of the passage, is not found and leaves its power there.
 *
 * @param others - the strings that were not found
 * @returns of the one at whose partials most is left; null where there is none
 */
export function restLine(state: JointState, others: readonly JointString[]): RestLine | null {
  if (state.strings.length === 0) return null;
  let most = 0;
  let frequencyHz = 0;
  for (const string of others) {
    const among = { ...state, strings: [...state.strings, string] };
    const numbers = Math.min(HIGHEST_NUMBER, string.partialCount);
    const powers = Array.from({ length: numbers }, (_, n) => powerLeft(among, string, n + 1));
    const sum = powers.reduce((total, power) => total + power, 0);
    if (sum <= most) continue;
    most = sum;
    frequencyHz = (powers.indexOf(Math.max(...powers)) + 1) * string.baseHz;
  }
  return most > 0 && state.power > 0 ? { frequencyHz, levelDb: 10 * Math.log10(most / state.power) } : null;
}

function powerLeft(state: JointState, string: JointString, number: number): number {
  const near = neighbours(state, string, number, REACH_HZ);
  const all = string.frames.partial(number);
  const rest = separatePartial(state, string, number, near, false, scratch.take(0, state.grid.count));
  const [left, whole] = [rest, all].map((frames) => {
    const smoothed = scratch.take(1, state.grid.count);
    smoothInto(smoothed, frames, state.grid);
    return meanSquare(smoothed);
  });
  return left > LEAST_LEFT * whole ? left : 0;
}
