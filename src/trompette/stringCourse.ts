import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { demodulate } from "../partials/demodulate.js";
import type { FrameGrid } from "../partials/FrameGrid.js";
import { median } from "../signal/median.js";
import type { PitchRefusal } from "./TrompetteReading.js";

/** One partial's own word on the pitch of the string. */
export interface PartialCourse {
  readonly number: number;
  /** Mean deviation of the string from `baseHz`, from frame m to frame m + 1. */
  readonly cents: Float64Array;
  /** What it moves about from frame to frame, as a standard deviation (robust). */
  readonly roughCents: number;
}

/** Pitch and strength of the string, frame by frame. */
export interface StringCourse {
  readonly grid: FrameGrid;
  /** The pitch that cents are counted from. */
  readonly baseHz: number;
  readonly partials: readonly PartialCourse[];
  /** All partials together, each by how smoothly it goes. */
  readonly cents: Float64Array;
  /** Level of the partials that were followed, at each frame. */
  readonly levelDb: Float64Array;
}

/** Partials up to here: above, the buzz is stronger than they are. */
const TOP_HZ = 2000;
const MOST_PARTIALS = 8;
const SHORTEST_HOP_SECONDS = 0.01;
const LONGEST_HOP_SECONDS = 0.034;
/** A partial nearer than this to one of another string can't be followed by itself in frames short enough for a stroke. */
const APART_HZ = 29;
/** A partial that moves about more than this from frame to frame is not followed. */
const ROUGHEST_CENTS = 60;
/** No partial is smoother than this on real bowed notes, so clear ones count alike. */
const SMOOTHEST_CENTS = 0.5;
const CENTS_PER_RATIO = 1200 / Math.LN2;
/** Median size of a Gaussian over its standard deviation. */
const MEDIAN_OF_GAUSSIAN = 0.6745;

/**
 * Follows the string through a stretch by those of its low partials that no other string comes near, in frames as short as the other
 * strings allow.
 *
 * @param othersHz - pitches of the strings that sound along
 * @returns why not, where it can't be followed
 */
export function stringCourse(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  stringHz: number,
  othersHz: readonly number[],
): StringCourse | PitchRefusal {
  const count = Math.max(1, Math.min(MOST_PARTIALS, Math.floor(TOP_HZ / stringHz)));
  const numbers = Array.from({ length: count }, (_, n) => n + 1);
  const apartHz = (number: number) => nearestHz(number * stringHz, stringHz, othersHz);
  const free = numbers.filter((number) => apartHz(number) >= APART_HZ);
  if (free.length === 0) return "shared-partials";
  const wanted = Math.max(SHORTEST_HOP_SECONDS, 1 / Math.min(...free.map(apartHz)));
  const periods = Math.max(1, Math.round(Math.min(LONGEST_HOP_SECONDS, wanted) * stringHz));
  const follow = (hz: number) => followed(segment, gridOf(startSeconds, endSeconds, periods / hz), hz, free);
  // First roughly, so that every partial stands nearly still in the second look.
  const rough = follow(stringHz);
  if (rough === null) return "not-followed";
  return follow(stringHz * 2 ** (median(rough.cents) / 1200)) ?? "not-followed";
}

/** How near a line of another string comes, or the next one of the string itself. */
function nearestHz(partialHz: number, stringHz: number, othersHz: readonly number[]): number {
  const others = othersHz.map((hz) => Math.abs(partialHz - Math.max(1, Math.round(partialHz / hz)) * hz));
  return Math.min(stringHz, ...others);
}

function gridOf(startSeconds: number, endSeconds: number, hopSeconds: number): FrameGrid {
  const count = Math.max(2, Math.floor((endSeconds - startSeconds) / hopSeconds) + 1);
  return { firstSeconds: startSeconds, hopSeconds, count };
}

function followed(
  segment: AnalysisSegment,
  grid: FrameGrid,
  baseHz: number,
  numbers: readonly number[],
): StringCourse | null {
  const { real, imaginary } = demodulate(segment, grid, baseHz, null, Math.max(...numbers));
  const partials = numbers
    .map((number): PartialCourse => {
      const cents = centsOf(real[number - 1], imaginary[number - 1], number * baseHz * grid.hopSeconds);
      return { number, cents, roughCents: Math.max(SMOOTHEST_CENTS, roughness(cents)) };
    })
    .filter(({ roughCents }) => roughCents <= ROUGHEST_CENTS);
  if (partials.length === 0) return null;
  const total = partials.reduce((sum, { roughCents }) => sum + roughCents ** -2, 0);
  const cents = new Float64Array(grid.count - 1);
  for (const one of partials) {
    const share = one.roughCents ** -2 / total;
    for (let m = 0; m < cents.length; m++) cents[m] += share * one.cents[m];
  }
  const levelDb = Float64Array.from({ length: grid.count }, (_, m) => {
    const power = partials.reduce(
      (sum, { number: n }) => sum + real[n - 1][m] ** 2 + imaginary[n - 1][m] ** 2,
      0,
    );
    return 10 * Math.log10(power + 1e-16);
  });
  return { grid, baseHz, partials, cents, levelDb };
}

/** Turn of the phase from frame to frame as cents; `cycles` is what the partial goes through in a hop. */
function centsOf(real: Float64Array, imaginary: Float64Array, cycles: number): Float64Array {
  return Float64Array.from({ length: real.length - 1 }, (_, m) => {
    const along = real[m + 1] * real[m] + imaginary[m + 1] * imaginary[m];
    const across = imaginary[m + 1] * real[m] - real[m + 1] * imaginary[m];
    return CENTS_PER_RATIO * Math.log1p(Math.atan2(across, along) / (2 * Math.PI * cycles));
  });
}

function roughness(cents: Float64Array): number {
  const steps = cents.subarray(1).map((value, m) => Math.abs(value - cents[m]));
  return median(steps) / MEDIAN_OF_GAUSSIAN / Math.SQRT2;
}
