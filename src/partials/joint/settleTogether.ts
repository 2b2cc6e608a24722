import { followUnison } from "./followUnison.js";
import type { JointState, JointString } from "./JointState.js";
import { settleString } from "./settleString.js";

/** Once all strings are found, this many rounds of following each with the others taken out. */
const ROUNDS = 3;

/** Follows all strings anew, from the lowest up, until each has been cleaned of what is known of the others. */
export function settleTogether(state: JointState): void {
  const rising = [...state.strings].sort((a, b) => a.baseHz - b.baseHz);
  for (let round = 0; round < ROUNDS; round++) {
    const done = new Set<JointString>();
    for (const string of rising) {
      if (done.has(string)) continue;
      if (string.equals.length === 0) settleString(state, string, 0);
      else followUnison(state, [string, ...string.equals]);
      for (const one of [string, ...string.equals]) done.add(one);
    }
  }
}
