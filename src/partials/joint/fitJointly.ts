import { isOneNote } from "../../units/isOneNote.js";
import type { AnalysisSegment } from "../AnalysisSegment.js";
import { findEqual } from "./findEqual.js";
import type { JointFit } from "./JointFit.js";
import { jointState } from "./JointState.js";
import { jointFitOf } from "./jointFitOf.js";
import { settleTogether } from "./settleTogether.js";

/**
 * Fits several strings that sound together, any of whose partials may coincide.
 *
 * Strings with partials of their own are followed on those alone, undisturbed by the rest. A string all of whose partials
 * are shared (the upper one of an octave) is looked for in what is left once the others, each along its own course, are
 * taken out by least squares, and is then followed there; a few rounds of this settle all of them. Splitting a shared
 * partial needs the two to go through about 1.5 cycles against each other; below that it gets no power of its own.
 *
 * @param startsHz - about where each string is, within `spanCents`
 * @param spanCents - how far from its start a string is looked for
 */
export function fitJointly(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  startsHz: readonly number[],
  spanCents: number,
): JointFit[] {
  const state = jointState(segment, startSeconds, endSeconds, startsHz);
  const rising = [...state.strings].sort((a, b) => a.baseHz - b.baseHz);
  while (rising.length > 0) {
    const lowestHz = rising[0].baseHz;
    const equal = rising.filter(({ baseHz }) => isOneNote(baseHz, lowestHz));
    rising.splice(0, equal.length);
    const starts = equal.map(({ baseHz }) => baseHz);
    findEqual(state, equal, starts, spanCents);
  }
  settleTogether(state);
  return state.strings.map((string) => jointFitOf(state, string));
}
