import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { jointState, meanHz } from "../partials/joint/JointState.js";
import { soundingStrings } from "../partials/joint/soundingStrings.js";
import type { NamedTarget } from "./TrompetteReading.js";

/** Enough to tell which strings sound. */
const MOST_SECONDS = 8;
const INSET_SECONDS = 0.1;
const LEAST_SECONDS = 1;

/** Strings that were found to sound, each with its pitch. */
export interface SoundingAlong {
  readonly stringHz: number | null;
  readonly others: readonly NamedTarget[];
}

/**
 * Which of the named strings sound in a stretch, best one without strokes, and at what pitch: the joint fit of all of them, each looked
 * for within 60 cents of its target.
 *
 * @returns nothing for a stretch under a second
 */
export function soundingAlong(
  segment: AnalysisSegment,
  { startSeconds, endSeconds }: TimeSpan,
  string: NamedTarget,
  others: readonly NamedTarget[],
): SoundingAlong | null {
  const from = startSeconds + INSET_SECONDS;
  const to = Math.min(endSeconds - INSET_SECONDS, from + MOST_SECONDS);
  if (to - from < LEAST_SECONDS) return null;
  const named = [string, ...others];
  const state = jointState(
    segment,
    from,
    to,
    named.map(({ frequencyHz }) => frequencyHz),
  );
  const sounding = new Set(soundingStrings(state));
  const found = named.map(({ name }, i) => {
    const one = state.strings[i];
    return sounding.has(one) ? { name, frequencyHz: meanHz(state, one) } : null;
  });
  return {
    stringHz: found[0]?.frequencyHz ?? null,
    others: found.slice(1).flatMap((one) => one ?? []),
  };
}
