import type { JointState, JointString } from "./JointState.js";

/** Another string's partial nearer than this may swing onto it: it is not a string's own. */
const OWN_HZ = 14;
const OWN_SHARE = 0.004;

/** Which partials no other string comes near, the strings not located yet being anywhere within their span. */
export function ownPartials(state: JointState, string: JointString, spanCents: number): boolean[] {
  return Array.from({ length: string.partialCount }, (_, n) => {
    const partialHz = (n + 1) * string.baseHz;
    const width = OWN_HZ + OWN_SHARE * partialHz;
    const wide = width + partialHz * (2 ** (spanCents / 1200) - 1);
    return state.strings.every((other) => {
      if (other === string) return true;
      const nearest = Math.max(1, Math.round(partialHz / other.baseHz));
      return Math.abs(nearest * other.baseHz - partialHz) >= (other.located ? width : wide);
    });
  });
}
