import { cents } from "../../units/cents.js";
import { followUnison } from "./followUnison.js";
import { type JointState, type JointString, meanHz } from "./JointState.js";
import { settleString } from "./settleString.js";

/** Once all strings are found, so many rounds of following each with the others taken out at most ... */
const MOST_ROUNDS = 6;
/** ... until no mean frequency moves by more than this in a round (a fifth of it took half as many rounds again, and came no nearer to the truth). */
const SETTLED_CENTS = 0.005;
/** Once none moves by more than this, which partials are a string's own stays as it is. */
const NEAR_CENTS = 1;

/** Follows all strings anew, from the lowest up, until each has been cleaned of what is known of the others. */
export function settleTogether(state: JointState): void {
  const rising = [...state.strings].sort((a, b) => a.baseHz - b.baseHz);
  // Nothing of the others is in a course of partials of its own: once it stands, it stands for good.
  const standing = new Set<JointString>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = rising.map((string) => meanHz(state, string));
    const done = new Set<JointString>(standing);
    for (const string of rising) {
      if (done.has(string)) continue;
      if (string.equals.length === 0) settleString(state, string, 0);
      else followUnison(state, [string, ...string.equals]);
      for (const one of [string, ...string.equals]) done.add(one);
    }
    const moved = rising.map((string, i) => Math.abs(cents(meanHz(state, string), before[i])));
    const furthest = Math.max(...moved);
    if (furthest < SETTLED_CENTS) break;
    if (furthest > NEAR_CENTS) continue;
    for (const [i, string] of rising.entries()) {
      if (string.ownCourse && moved[i] < SETTLED_CENTS) standing.add(string);
    }
  }
}
