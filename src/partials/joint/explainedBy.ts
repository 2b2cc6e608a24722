import { smoothInto } from "../smoothFrames.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import { FrameScratch } from "./FrameScratch.js";
import { gainFit } from "./gainFit.js";
import type { JointState, JointString } from "./JointState.js";
import { meanSquare } from "./meanSquare.js";
import type { Neighbour } from "./neighbours.js";
import { separatePartial } from "./separatePartial.js";

const scratch = new FrameScratch();

/** What a string explains of the sound at one of its partials. */
export interface Explained {
  /** No other string comes near. */
  readonly isOwn: boolean;
  /** Power that the string explains, the share of what the others leave, and of all that stands there. */
  readonly power: number;
  readonly share: number;
  readonly relative: number;
}

/**
 * How much of what the neighbours leave at a partial holds together as one amplitude along the string's course, times
 * its gain. Frames are smoothed first, so that partials further off play no part.
 *
 * @param separated - the partial with the neighbours taken out, where that was done before
 */
export function explainedBy(
  state: JointState,
  string: JointString,
  number: number,
  near: readonly Neighbour[],
  separated: ComplexFrames = separatePartial(state, string, number, near, true, raw(state)),
): Explained {
  const { taper, grid } = state;
  const smoothed = scratch.take(0, grid.count);
  smoothInto(smoothed, separated, grid);
  const apart = gainFit(smoothed, string.gain, taper);
  let left = apart.meanSquare;
  if (near.length > 0) {
    smoothInto(smoothed, separatePartial(state, string, number, near, false, raw(state)), grid);
    left = meanSquare(smoothed);
  }
  const gained = Math.max(0, left - apart.restPower);
  return {
    isOwn: near.length === 0,
    power: gained,
    share: left > 0 ? gained / left : 0,
    relative: gained / Math.max(meanSquare(string.frames.partial(number)), 1e-300),
  };
}

function raw({ grid }: JointState): ComplexFrames {
  return scratch.take(1, grid.count);
}
