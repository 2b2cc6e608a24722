import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { demodulate, type PartialFrames } from "../partials/demodulate.js";
import type { FrameGrid } from "../partials/FrameGrid.js";
import { phaseCourse } from "../partials/phaseCourse.js";
import type { PitchRefusal } from "./TrompetteReading.js";

/** Pitch and strength of the string, frame by frame. */
export interface StringCourse {
  readonly grid: FrameGrid;
  /** The pitch that cents are counted from. */
  readonly baseHz: number;
  /** Mean deviation from frame m to frame m + 1. */
  readonly cents: Float64Array;
  /** Level of the partials that were followed, at each frame. */
  readonly levelDb: Float64Array;
}

/** Partials up to here: above, the buzz is too strong. */
const TOP_HZ = 1300;
const MOST_PARTIALS = 8;
const SHORTEST_HOP_SECONDS = 0.01;
const LONGEST_HOP_SECONDS = 0.034;
/** A partial nearer than this to one of another string can't be followed by itself in frames short enough for a stroke. */
const APART_HZ = 29;
const CENTS_PER_RATIO = 1200 / Math.LN2;

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
  const numbers = Array.from(
    { length: Math.max(1, Math.min(MOST_PARTIALS, Math.floor(TOP_HZ / stringHz))) },
    (_, n) => n + 1,
  );
  const apartHz = (number: number) =>
    Math.min(stringHz, ...othersHz.map((hz) => {
      const nearest = Math.max(1, Math.round((number * stringHz) / hz));
      return Math.abs(number * stringHz - nearest * hz);
    }));
  const free = numbers.filter((number) => apartHz(number) >= APART_HZ);
  if (free.length === 0) return "shared-partials";
  const wanted = Math.max(SHORTEST_HOP_SECONDS, 1 / Math.min(...free.map(apartHz)));
  const periods = Math.max(1, Math.round(Math.min(LONGEST_HOP_SECONDS, wanted) * stringHz));
  // First roughly, so that every partial stands nearly still in the second look.
  const roughHz = meanHzOf(follow(segment, gridOf(startSeconds, endSeconds, periods / stringHz), stringHz, free));
  if (roughHz === null) return "not-followed";
  const grid = gridOf(startSeconds, endSeconds, periods / roughHz);
  const followed = follow(segment, grid, roughHz, free);
  if (followed === null) return "not-followed";
  const { cycles, frames, used } = followed;
  const cents = new Float64Array(Math.max(0, cycles.length - 1));
  for (let m = 0; m < cents.length; m++) {
    const hz = (cycles[m + 1] - cycles[m]) / grid.hopSeconds;
    cents[m] = CENTS_PER_RATIO * Math.log1p(hz / roughHz);
  }
  const levelDb = Float64Array.from({ length: grid.count }, (_, m) => {
    const power = used.reduce((sum, n) => sum + frames.real[n][m] ** 2 + frames.imaginary[n][m] ** 2, 0);
    return 10 * Math.log10(power + 1e-16);
  });
  return { grid, baseHz: roughHz, cents, levelDb };
}

function gridOf(startSeconds: number, endSeconds: number, hopSeconds: number): FrameGrid {
  const count = Math.max(2, Math.floor((endSeconds - startSeconds) / hopSeconds) + 1);
  return { firstSeconds: startSeconds, hopSeconds, count };
}

interface Followed {
  readonly cycles: Float64Array;
  readonly baseHz: number;
  readonly hopSeconds: number;
  readonly frames: PartialFrames;
  /** Indices of the partials whose phase was used. */
  readonly used: readonly number[];
}

function follow(
  segment: AnalysisSegment,
  grid: FrameGrid,
  baseHz: number,
  numbers: readonly number[],
): Followed | null {
  const all = demodulate(segment, grid, baseHz, null, Math.max(...numbers));
  const frames = {
    real: numbers.map((number) => all.real[number - 1]),
    imaginary: numbers.map((number) => all.imaginary[number - 1]),
  };
  const course = phaseCourse(frames, numbers.map((_, n) => signalToNoise(frames, n)), numbers);
  if (course === null) return null;
  const used = numbers.flatMap((_, n) => (course.weights[n] > 0 ? [n] : []));
  return { cycles: course.cycles, baseHz, hopSeconds: grid.hopSeconds, frames, used };
}

function meanHzOf(followed: Followed | null): number | null {
  if (followed === null) return null;
  const { cycles, baseHz, hopSeconds } = followed;
  return baseHz + (cycles[cycles.length - 1] - cycles[0]) / ((cycles.length - 1) * hopSeconds);
}

/** Power of a partial over what its size does not do smoothly from frame to frame. */
function signalToNoise({ real, imaginary }: PartialFrames, n: number): number {
  const size = real[n].map((value, m) => Math.hypot(value, imaginary[n][m]));
  let power = 0;
  let rough = 0;
  for (let m = 1; m + 1 < size.length; m++) {
    power += size[m] ** 2;
    // The second difference of noise has six times its power, of which half lies along the partial.
    rough += (size[m - 1] - 2 * size[m] + size[m + 1]) ** 2 / 3;
  }
  return power / Math.max(rough, 1e-12 * power, 1e-30);
}
