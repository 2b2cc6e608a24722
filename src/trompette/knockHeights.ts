import { median } from "../signal/median.js";
import type { FineSpan } from "./FineStroke.js";
import { FINE_HOP_SECONDS } from "./fineCourse.js";

/** How strong the usual knock of a stroke is. */
export interface KnockHeight {
  /** In the unit of the course. */
  readonly height: number;
  /** How well that is known, decibels (a standard deviation). */
  readonly spreadDb: number;
}

/** Knocks are the highest within so much of a period to each side ... */
const APART_PERIODS = 0.4;
/** ... and not much lower than most: what rings between knocks is none. */
const LEAST_SHARE = 0.2;
const TOP_QUANTILE = 0.8;
/** With peaks less than this over the mean it is one sound, not knocks: then its height is its mean, less what peaks stand out by chance. */
const SEPARATE_RATIO = 1.7;
const MEAN_SHARE = 0.8;
const LEAST_PRIOR_DB = 0.3;
const MOST_OFF_DB = 6;

/**
 * Height of the usual knock of each stroke: of its own knocks, drawn towards that of the other strokes as far as the few knocks of one
 * scatter (empirical Bayes in decibels).
 *
 * @param courses - one a stroke, 0 in silence
 * @param inner - where each buzzes
 */
export function knockHeights(
  courses: readonly Float64Array[],
  inner: readonly FineSpan[],
  stringHz: number,
): { readonly heights: readonly KnockHeight[]; readonly areSeparate: boolean } {
  const reach = Math.max(2, Math.round(APART_PERIODS / stringHz / FINE_HOP_SECONDS));
  const each = courses.map((course, i) => ownKnocks(course, inner[i], reach));
  const ratios = each.filter(({ top, mean }) => top > 0 && mean > 0).map(({ top, mean }) => top / mean);
  const ratio = ratios.length === 0 ? 2 : median(ratios);
  const areSeparate = ratio >= SEPARATE_RATIO;
  const scale = areSeparate ? 1 : MEAN_SHARE / ratio;
  const levels = each.map(({ top, mean }) => {
    const byMean = ratio * mean;
    const own = top > 0 && byMean > 0 ? Math.sqrt(top * byMean) : Math.max(top, byMean);
    return 10 * Math.log10(Math.max(1e-30, scale * own));
  });
  const scatters = each.flatMap(({ variance }) => variance ?? []);
  const scatter =
    scatters.length === 0 ? 1 : scatters.reduce((sum, value) => sum + value, 0) / scatters.length;
  const own = each.map(({ count }) => scatter / count);
  const usual = median(levels);
  const squares = levels.map((level) => Math.min(MOST_OFF_DB, Math.abs(level - usual)) ** 2);
  const total = squares.reduce((sum, square) => sum + square, 0) / Math.max(1, levels.length - 1);
  const between = Math.max(LEAST_PRIOR_DB ** 2, total - median(own));
  return {
    areSeparate,
    heights: levels.map((level, i) => ({
      height: 10 ** ((level * between + usual * own[i]) / (between + own[i]) / 10),
      spreadDb: Math.sqrt((between * own[i]) / (between + own[i])),
    })),
  };
}

function ownKnocks(course: Float64Array, [first, last]: FineSpan, reach: number) {
  let mean = 0;
  const peaks: number[] = [];
  for (let k = first; k < last; k++) {
    mean += course[k] / (last - first);
    let isPeak = course[k] > 0;
    for (let j = Math.max(0, k - reach); isPeak && j <= Math.min(course.length - 1, k + reach); j++) {
      if (course[j] > course[k]) isPeak = false;
    }
    if (isPeak) peaks.push(course[k]);
  }
  if (peaks.length === 0) return { mean, top: 0, count: 1, variance: null };
  const most = [...peaks].sort((a, b) => a - b)[Math.floor(TOP_QUANTILE * (peaks.length - 1))];
  const knocks = peaks.filter((peak) => peak >= LEAST_SHARE * most);
  const top = knocks.reduce((sum, peak) => sum + peak, 0) / knocks.length;
  const levels = knocks.map((peak) => 10 * Math.log10(peak));
  const middle = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  const squares = levels.reduce((sum, level) => sum + (level - middle) ** 2, 0);
  return {
    mean,
    top,
    count: knocks.length,
    variance: knocks.length > 1 ? squares / (knocks.length - 1) : null,
  };
}
