import { followUnison } from "./followUnison.js";
import { type JointState, type JointString, moveString } from "./JointState.js";
import { locateString } from "./locateString.js";
import { settleString } from "./settleString.js";

/** Once a string is found, it is found again this closely on more of its partials. */
const FINE_CENTS = 6;

/**
 * Looks for a string, or for several with one target, from their starts, and follows them.
 *
 * @param spanCents - how far from its start a string is looked for, those of `state` not located yet included
 * @param strongFirst - follows each of several before the next is looked for: finds a weak one beside a strong one, but
 * goes astray along the beats of two about as strong
 * @returns false where one of them could not be followed
 */
export function findEqual(
  state: JointState,
  strings: readonly JointString[],
  startsHz: readonly number[],
  spanCents: number,
  strongFirst: boolean,
): boolean {
  for (const [i, string] of strings.entries()) {
    string.located = false;
    string.equals = strings.filter((one) => one !== string);
    moveString(state, string, startsHz[i], new Float64Array(state.grid.count));
  }
  for (const [i, string] of strings.entries()) {
    const later = strongFirst ? strings.slice(i + 1) : [];
    const known = { ...state, strings: state.strings.filter((one) => !later.includes(one)) };
    locateString(known, string, spanCents, spanCents);
    locateString(known, string, Math.min(FINE_CENTS, spanCents), spanCents);
    settleString(known, string, spanCents);
    string.located = true;
  }
  return strings.length > 1 ? followUnison(state, strings) : strings[0].followed;
}
