import { followString } from "./followString.js";
import type { JointState, JointString } from "./JointState.js";
import { ownPartials } from "./ownPartials.js";

/** Fewer partials of its own than this don't carry a string. */
const LEAST_OWN = 2;

/**
 * Follows a located string along its own partials, or where it has too few or they are too weak, along all that can be
 * cleaned of the others.
 *
 * @param spanCents - strings not located yet may lie this far from where they are
 * @returns false where it could not be followed at all
 */
export function settleString(state: JointState, string: JointString, spanCents: number): boolean {
  string.own = ownPartials(state, string, spanCents);
  string.ownCourse = string.own.filter(Boolean).length >= LEAST_OWN;
  string.followed = string.ownCourse && followString(state, string);
  if (!string.followed) {
    string.ownCourse = false;
    string.followed = followString(state, string);
  }
  return string.followed;
}
