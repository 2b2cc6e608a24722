import { type CandidateSearch, candidateSearch } from "./candidateSearch.js";
import type { DecayWindows } from "./DecayWindows.js";
import { fitPoles, LEAST_Q, type PoleFit } from "./fitPoles.js";
import type { Pole } from "./Pole.js";
import { restOf } from "./restOf.js";
import { roomShare } from "./roomShare.js";

/** More vibrations than this are not looked for. */
export const MOST_POLES = 32;
/** A vibration must explain this share of what stands at its place in the whole sound: less may be the room's unrest. */
const LEAST_SHARE = 0.003;
const TIMES_ROOM = 30;
const MOST_SHARE = 0.01;
const TRIED = 4;
const MOST_BROAD = 3;
const QUICK_STEPS = 12;
/** Poles that turned out too broad are taken out and the search goes on, so many times. */
const ROUNDS = 3;

/**
 * Finds the decaying vibrations in what is heard after the taps: the one that explains most of what is left is added, and all
 * are fitted anew together, until no further one is shown.
 */
export function findPoles(
  data: DecayWindows,
  start: readonly Pole[] = [],
  mostPoles = MOST_POLES,
): PoleFit | null {
  const totalPower = totalOf(data);
  const search = candidateSearch(data);
  let fit = fitPoles(start, data, totalPower);
  for (let round = 0; round < ROUNDS && fit !== null; round++) {
    fit = withMore(fit, data, totalPower, search, mostPoles);
    const narrow: readonly Pole[] = fit.poles.filter(isNarrow);
    if (narrow.length === fit.poles.length) break;
    fit = fitPoles(narrow, data, totalPower);
  }
  return fit;
}

function withMore(
  start: PoleFit,
  data: DecayWindows,
  totalPower: number,
  search: CandidateSearch,
  mostPoles: number,
): PoleFit {
  let fit = start;
  while (fit.poles.length < mostPoles) {
    const better = withOneMore(fit, data, totalPower, search);
    if (better === null) break;
    fit = better;
  }
  return fitPoles(fit.poles, data, totalPower) ?? fit;
}

/** Sum of squares of all windows. */
export function totalOf({ windows }: DecayWindows): number {
  return windows.reduce((sum, window) => sum + window.reduce((part, value) => part + value * value, 0), 0);
}

function isNarrow({ frequencyHz, decay }: Pole): boolean {
  return decay < (0.95 * Math.PI * frequencyHz) / LEAST_Q;
}

function withOneMore(
  fit: PoleFit,
  data: DecayWindows,
  totalPower: number,
  search: CandidateSearch,
): PoleFit | null {
  const least = leastGain(data);
  const rest = restOf(fit, data);
  const leastShare = Math.min(MOST_SHARE, Math.max(LEAST_SHARE, TIMES_ROOM * roomShare(rest, data)));
  let broad: PoleFit | null = null;
  for (const { pole, gain, share } of search(rest, TRIED)) {
    if (gain <= least || share <= leastShare) continue;
    const next = fitPoles([...fit.poles, pole], data, totalPower, QUICK_STEPS);
    if (next === null || fit.restPower - next.restPower <= least) continue;
    if (next.poles.every(isNarrow)) return next;
    broad ??= next;
  }
  // Modes that overlap look like one broad vibration at first, and part when the next ones come in; what stays broad goes in the end.
  const isMore = broad !== null && broad.poles.filter((pole) => !isNarrow(pole)).length <= MOST_BROAD;
  return isMore ? broad : null;
}

/**
 * A vibration that isn't there lowers the sum of squares by a chi-square of 2 a window (amplitudes) and 2 (pole), the best of
 * some thousand places by more: this is passed once in about a thousand takes.
 */
function leastGain({ windows }: DecayWindows): number {
  const freedom = 2 * windows.length + 2;
  return freedom + 5 * Math.sqrt(2 * freedom) + 20;
}
