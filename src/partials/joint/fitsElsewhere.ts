import type { AnalysisSegment } from "../AnalysisSegment.js";
import type { Explained } from "./explainedBy.js";
import { explainedRows } from "./explainedRows.js";
import { explainedShare } from "./explainedShare.js";
import type { JointFit, JointPartial } from "./JointFit.js";
import { jointState, moveString } from "./JointState.js";
import { partialsOf } from "./jointFitOf.js";

/** What a string that is known from one channel has in another. */
export interface FitElsewhere {
  readonly partials: readonly JointPartial[];
  /** Of what the other strings leave at its strongest partials, the share that it explains. */
  readonly explainedShare: number;
  /** Power at its lower partials that neither it nor the others explain, as a share of all in the channel. */
  readonly leftShare: number;
}

const CENTS_PER_RATIO = 1200 / Math.LN2;

/**
 * Looks in a channel for strings that were fitted in another one or several: every partial gets its power there, along
 * the course and with the gain that are known, the others taken out. Nothing is followed anew.
 *
 * @param fits - all strings of the passage
 * @returns one entry a fit
 */
export function fitsElsewhere(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  fits: readonly JointFit[],
): FitElsewhere[] {
  const startsHz = fits.map(({ frequencyHz }) => frequencyHz);
  const state = jointState(segment, startSeconds, endSeconds, startsHz);
  for (const [i, { frequencyHz, course, gain }] of fits.entries()) {
    const cycles = course.centSeconds.map((value) => (value * frequencyHz) / CENTS_PER_RATIO);
    moveString(state, state.strings[i], frequencyHz, cycles);
    state.strings[i].gain = gain;
  }
  const found = state.strings.map((string, i) => {
    const rows = explainedRows(state, string);
    const left = rows.reduce((sum, row) => sum + leftPower(row), 0);
    return {
      partials: partialsOf(state, string, fits[i].frequencyHz),
      explainedShare: explainedShare(state, string, rows),
      leftShare: state.power > 0 ? left / state.power : 0,
    };
  });
  // No frame leaves with them.
  state.spectrum.memory.release();
  return found;
}

function leftPower({ power, share }: Explained): number {
  return share > 0 ? power * (1 / share - 1) : 0;
}
