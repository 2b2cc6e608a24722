import type { AnalysisSegment } from "../AnalysisSegment.js";
import type { PitchIntegral } from "../HarmonicFit.js";
import { explainedBy } from "./explainedBy.js";
import { type JointState, type JointString, jointState, meanHz } from "./JointState.js";
import { locateString } from "./locateString.js";
import { neighbours } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";
import { settleString } from "./settleString.js";

/** A partial of one of several strings. */
export interface JointPartial {
  readonly number: number;
  /** Mean power, 1 for a full-scale sine; null where another string's partial lies too close for a split. */
  readonly power: number | null;
  /** Power over what nothing explains in one frame; null where there is no split. */
  readonly signalToNoise: number | null;
}

/** One of the strings that sound together. */
export interface JointFit {
  /** Mean frequency over the passage. */
  readonly frequencyHz: number;
  readonly course: PitchIntegral;
  readonly partials: readonly JointPartial[];
  /** True where it could be followed on partials of its own, so that no other string disturbs it. */
  readonly hasOwnPartials: boolean;
  /** False where its movement could not be followed: the frequency is then that of a steady line, its course flat. */
  readonly followed: boolean;
  /** Of what the others leave at its strongest partials, the share that it explains; near 1 where nothing else sounds. */
  readonly explainedShare: number;
}

/** Once all strings are found, this many rounds of following each with the others taken out. */
const ROUNDS = 3;
const WIDTH_HZ = 9;
/** Once a string is found, it is found again this closely on more of its partials. */
const FINE_CENTS = 6;
/** A split is made where two partials go through this many cycles against each other (see the docstring). */
const LEAST_CYCLES = 1.5;
/** Partials that show whether a string explains what sounds: the strongest of the lower ones. */
const HIGHEST_CHECKED = 12;
const MOST_CHECKED = 5;
const CENTS_PER_RATIO = 1200 / Math.LN2;

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
  for (const string of rising) {
    locateString(state, string, spanCents, spanCents);
    locateString(state, string, FINE_CENTS, spanCents);
    settleString(state, string, spanCents);
    string.located = true;
  }
  for (let round = 0; round < ROUNDS; round++) {
    for (const string of rising) settleString(state, string, 0);
  }
  return state.strings.map((string) => ({
    frequencyHz: meanHz(state, string),
    course: pitchIntegral(state, string),
    partials: partialsOf(state, string),
    hasOwnPartials: string.ownCourse,
    followed: string.followed,
    explainedShare: explainedShare(state, string),
  }));
}

function pitchIntegral(state: JointState, string: JointString): PitchIntegral {
  const { hopSeconds } = state.grid;
  const frequencyHz = meanHz(state, string);
  const { baseHz, courseCycles } = string;
  const centsPerCycle = CENTS_PER_RATIO / frequencyHz;
  return {
    hopSeconds,
    centSeconds: courseCycles.map(
      (cycles, m) => (cycles - courseCycles[0] + (baseHz - frequencyHz) * m * hopSeconds) * centsPerCycle,
    ),
  };
}

function partialsOf(state: JointState, string: JointString): JointPartial[] {
  const seconds = (state.grid.count - 1) * state.grid.hopSeconds;
  const frequencyHz = meanHz(state, string);
  return Array.from({ length: string.partialCount }, (_, n) => {
    const number = n + 1;
    const near = neighbours(state, string, number, WIDTH_HZ);
    const shared = near.some(
      (one) =>
        Math.abs(one.number * meanHz(state, one.string) - number * frequencyHz) * seconds < LEAST_CYCLES,
    );
    if (shared) return { number, power: null, signalToNoise: null };
    const { power, restPower } = separatePartial(state, string, number, near, true);
    return { number, power, signalToNoise: Math.min(1e12, power / Math.max(restPower, 1e-30)) };
  });
}

function explainedShare(state: JointState, string: JointString): number {
  const rows = Array.from({ length: Math.min(HIGHEST_CHECKED, string.partialCount) }, (_, n) =>
    explainedBy(state, string, n + 1, neighbours(state, string, n + 1, WIDTH_HZ)),
  );
  const strongest = rows.sort((a, b) => b.power - a.power).slice(0, MOST_CHECKED);
  const power = strongest.reduce((sum, row) => sum + row.power, 0);
  return power > 0 ? strongest.reduce((sum, row) => sum + row.share * row.power, 0) / power : 0;
}
