import type { PitchIntegral } from "../HarmonicFit.js";
import { explainedShare } from "./explainedShare.js";
import type { JointFit, JointPartial } from "./JointFit.js";
import { type JointState, type JointString, meanHz } from "./JointState.js";
import { neighbours } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";

const WIDTH_HZ = 9;
/** A split is made where two partials go through this many cycles against each other; below, it would be invented. */
const LEAST_CYCLES = 1.5;
const CENTS_PER_RATIO = 1200 / Math.LN2;

/** What is known of a string once all have been followed. */
export function jointFitOf(state: JointState, string: JointString): JointFit {
  return {
    frequencyHz: meanHz(state, string),
    course: pitchIntegral(state, string),
    partials: partialsOf(state, string),
    hasOwnPartials: string.ownCourse,
    followed: string.followed,
    explainedShare: explainedShare(state, string),
  };
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
