import { KernelRows } from "../../kernels/KernelRows.js";
import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import { nextPowerOfTwo } from "../../signal/nextPowerOfTwo.js";
import { type JointState, type JointString, moveString } from "./JointState.js";
import { lineEvidence } from "./lineEvidence.js";
import { NEIGHBOUR_HZ, type Neighbour, neighbours } from "./neighbours.js";

/** Few partials find a frequency as well as many, and low ones are not torn apart by the swing of the wheel. */
const MOST_PARTIALS = 5;
const HIGHEST_NUMBER = 16;
/** Spectra are padded this many times, so that the nearest bin, an eighth of a cycle off at most, is near enough. */
const PADDING = 4;

/** What the place that was found has for it. */
export interface Located {
  /** Product over the partials that were looked at of the share that a line there leaves: 1 where it explains nothing. */
  readonly left: number;
  /** Power at these partials, 1 for a full-scale sine, the strings that are located already taken out. */
  readonly power: number;
}

/**
 * Looks for the frequency of a string within a span of its present one, by what its partials explain once the strings
 * that are located already are taken out of them.
 *
 * For each of a few partials the frames are projected off the known neighbours; the share of what is left that a line at
 * n times a candidate explains is |v'y|^2 / (|v|^2 - |Q'v|^2) over the energy, by FFT for all candidates at once. The
 * candidate with the largest sum of -log(1 - share) (here: the least product of 1 - share) wins, the likelihood of lines in noise of unknown level.
 *
 * @param spanCents - candidates lie this far on both sides
 * @param unlocatedSpanCents - strings not located yet may lie this far from where they are
 * @returns null where no partial could be looked at; the string stays where it was
 */
export function locateString(
  state: JointState,
  string: JointString,
  spanCents: number,
  unlocatedSpanCents: number,
): Located | null {
  const spanHz = string.baseHz * (2 ** (spanCents / 1200) - 1);
  const { grid } = state;
  const size = nextPowerOfTwo(PADDING * grid.count);
  const binHz = 1 / (grid.hopSeconds * size);
  const chosen = chosenPartials(state, string, spanHz, unlocatedSpanCents);
  if (chosen.length === 0) return null;
  const highest = chosen[chosen.length - 1].number;
  const reaches = chosen.map(({ number }) => Math.round((number * spanHz) / binHz));
  // A row each for what lines leave of a partial, then one to work in, their numbers and reaches, and what is found.
  const [numbers, found] = [chosen.length + 1, chosen.length + 3];
  const left = new KernelRows(
    ScratchUser.locating,
    found + 1,
    Math.max(MOST_PARTIALS, 2 * Math.max(...reaches) + 1),
  );
  const energies = chosen.map(({ number, known }, i) =>
    lineEvidence(state, string, number, known, size, reaches[i], left, i),
  );
  left.put(
    numbers,
    Float64Array.from(chosen, ({ number }) => number),
  );
  left.put(numbers + 1, Float64Array.from(reaches));
  // biome-ignore format: arguments of a kernel
  kernels().functions.leastProduct(left.place(numbers), left.place(numbers + 1), left.place(0), left.stride, chosen.length, spanHz, binHz / highest, binHz, left.place(found));
  moveString(state, string, string.baseHz + left.value(found, 0), new Float64Array(grid.count));
  const energy = energies.reduce((sum, one) => sum + one, 0);
  return { left: left.value(found, 1), power: energy / state.taperTotal };
}

/** Partials to look at: best those that only located strings come near; where there are too few, any. */
function chosenPartials(state: JointState, string: JointString, spanHz: number, unlocatedSpanCents: number) {
  const all: { number: number; known: Neighbour[]; clear: boolean }[] = [];
  const unlocatedShare = 2 ** (unlocatedSpanCents / 1200) - 1;
  for (let number = 1; number <= Math.min(HIGHEST_NUMBER, string.partialCount); number++) {
    if (number * spanHz > state.spectrum.flatHz && number > 1) break;
    const reach = NEIGHBOUR_HZ + number * spanHz;
    const near = neighbours(state, string, number, reach + number * string.baseHz * unlocatedShare);
    const known = near.filter(
      (one) =>
        one.string.located && Math.abs(one.number * one.string.baseHz - number * string.baseHz) < reach,
    );
    all.push({ number, known, clear: near.every((one) => one.string.located) });
  }
  const clear = all.filter((one) => one.clear);
  const free = clear.filter((one) => one.known.length === 0);
  const chosen = free.length >= 1 ? free : clear.length >= 1 ? clear : all;
  return chosen.slice(0, MOST_PARTIALS);
}
