import { type JointState, type JointString, moveString } from "./JointState.js";
import { locateString } from "./locateString.js";
import { settleString } from "./settleString.js";

/** Once a string is found, it is found again this closely on more of its partials. */
const FINE_CENTS = 6;

/** Puts a string back to where it is looked for, as if nothing were known of it. */
export function setOut(state: JointState, string: JointString, startHz: number): void {
  string.located = false;
  string.gain = new Float64Array(state.grid.count).fill(1);
  moveString(state, string, startHz, new Float64Array(state.grid.count));
}

/**
 * From where a string was roughly located to where it is, and along its movement.
 *
 * @param spanCents - strings not located yet may lie this far from where they are
 */
export function closeIn(state: JointState, string: JointString, spanCents: number): void {
  // On more of its partials: without it a real C3 6 dB under two others came out 7 cents off, a semblance of all three.
  locateString(state, string, Math.min(FINE_CENTS, spanCents), spanCents);
  // With one of its equals still to be found, and not left out, this follows nothing.
  settleString(state, string, spanCents);
  string.located = true;
}
