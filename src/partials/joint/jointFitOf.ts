import { lineThrough } from "../../signal/lineThrough.js";
import type { PitchIntegral } from "../HarmonicFit.js";
import { explainedRows } from "./explainedRows.js";
import { explainedShare } from "./explainedShare.js";
import type { JointFit, JointPartial } from "./JointFit.js";
import { type JointState, type JointString, meanHz } from "./JointState.js";
import { LEAST_CYCLES } from "./leastCycles.js";
import { NEIGHBOUR_HZ, neighbours } from "./neighbours.js";
import { powerTogether } from "./powerTogether.js";
import { type SeparatedPartial, separatePartial } from "./separatePartial.js";

/** A course that strays less from a straight line (rms, of the fundamental) may be all noise; swing of 0.1 cent passes it. */
const STEADY_RADIANS = 0.005;
/** Long against a bow change or a beat, short against a note. */
const EVEN_SECONDS = 0.6;
const CENTS_PER_RATIO = 1200 / Math.LN2;

/** What is known of a string once all have been followed. */
export function jointFitOf(state: JointState, string: JointString): JointFit {
  const frequencyHz = steadyHz(state, string) ?? meanHz(state, string);
  const apart: SeparatedPartial[] = [];
  const partials = partialsOf(state, string, frequencyHz, apart);
  return {
    frequencyHz,
    course: pitchIntegral(state, string, frequencyHz),
    partials,
    gain: string.gain,
    hasOwnPartials: string.ownCourse,
    followed: string.followed,
    explainedShare: explainedShare(
      state,
      string,
      explainedRows(state, string, (number) => apart[number]),
    ),
    weakestThird: weakestThird(string.gain),
    evenness: evenness(string.gain, state.grid.hopSeconds),
  };
}

function weakestThird(gain: Float64Array): number {
  const third = Math.ceil(gain.length / 3);
  const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const thirds = [0, 1, 2]
    .map((i) => gain.subarray(i * third, (i + 1) * third))
    .filter(({ length }) => length > 0);
  return Math.min(...thirds.map(mean)) / mean(gain);
}

function evenness(gain: Float64Array, hopSeconds: number): number {
  const length = Math.min(gain.length, Math.round(EVEN_SECONDS / hopSeconds));
  let weakest = Number.POSITIVE_INFINITY;
  let strongest = 0;
  let sum = 0;
  for (let m = 0; m < gain.length; m++) {
    sum += gain[m] - (m >= length ? gain[m - length] : 0);
    if (m < length - 1) continue;
    weakest = Math.min(weakest, sum);
    strongest = Math.max(strongest, sum);
  }
  return strongest > 0 ? weakest / strongest : 0;
}

/**
 * Where the pitch moved no more than noise makes it seem, all of the course tells the frequency, not its two ends alone: the
 * slope by least squares is the maximum-likelihood one. Null where it moved.
 */
function steadyHz({ grid }: JointState, { baseHz, courseCycles }: JointString): number | null {
  const { slope, restVariance } = lineThrough(courseCycles);
  const strayRadians = 2 * Math.PI * Math.sqrt(restVariance);
  return strayRadians < STEADY_RADIANS ? baseHz + slope / grid.hopSeconds : null;
}

function pitchIntegral(state: JointState, string: JointString, frequencyHz: number): PitchIntegral {
  const { hopSeconds } = state.grid;
  const { baseHz, courseCycles } = string;
  const centsPerCycle = CENTS_PER_RATIO / frequencyHz;
  return {
    hopSeconds,
    centSeconds: courseCycles.map(
      (cycles, m) => (cycles - courseCycles[0] + (baseHz - frequencyHz) * m * hopSeconds) * centsPerCycle,
    ),
  };
}

/**
 * The partials of a string, with the others taken out of them.
 *
 * @param apart - those that were separated are put here, by their number
 */
export function partialsOf(
  state: JointState,
  string: JointString,
  frequencyHz: number,
  apart: SeparatedPartial[] = [],
): JointPartial[] {
  const seconds = (state.grid.count - 1) * state.grid.hopSeconds;
  const place = (one: JointString) => state.strings.indexOf(one);
  return Array.from({ length: string.partialCount }, (_, n) => {
    const number = n + 1;
    const near = neighbours(state, string, number, NEIGHBOUR_HZ);
    const sharing = near.filter(
      (one) =>
        Math.abs(one.number * meanHz(state, one.string) - number * frequencyHz) * seconds < LEAST_CYCLES,
    );
    if (sharing.length > 0) {
      const isFirst = sharing.every((one) => place(one.string) > place(string));
      const togetherPower = isFirst ? powerTogether(state, string, number, near, sharing) : null;
      return { number, power: null, togetherPower, signalToNoise: null };
    }
    apart[number] = separatePartial(state, string, number, near, true);
    const { power, restPower } = apart[number];
    return {
      number,
      power,
      togetherPower: null,
      signalToNoise: Math.min(1e12, power / Math.max(restPower, 1e-30)),
    };
  });
}
