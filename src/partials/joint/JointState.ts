import type { AnalysisSegment } from "../AnalysisSegment.js";
import { demodulate, type PartialFrames } from "../demodulate.js";
import type { FrameGrid } from "../FrameGrid.js";

/** What is known so far of one of the strings that sound together. */
export interface JointString {
  baseHz: number;
  /** Phase ahead of `baseHz` in cycles, at each frame. */
  courseCycles: Float64Array;
  /** How its strength moves, the same for all its partials, about 1 on the mean. */
  gain: Float64Array;
  /** Frames of its partials along its own course, the other strings still in them. */
  frames: PartialFrames;
  readonly partialCount: number;
  /** True for a partial that no other string comes near. */
  own: readonly boolean[];
  /** True once its frequency is known well enough to be taken out of the other strings' partials. */
  located: boolean;
  /** True once its movement could be followed; until then its course is a straight line. */
  followed: boolean;
  /** True where its course comes from partials of its own alone. */
  ownCourse: boolean;
}

/** One passage and the strings in it. */
export interface JointState {
  readonly segment: AnalysisSegment;
  readonly grid: FrameGrid;
  /** Weight of each frame: flat, with short cosine ends, so that far partials don't leak in. */
  readonly taper: Float64Array;
  readonly strings: readonly JointString[];
}

/** Same for all strings, whose periods differ; short enough for partials that lie 40 Hz apart. */
const HOP_SECONDS = 0.01;
const TAPER_SHARE = 0.08;
/** Partials up to here; what lies above is left alone, though it may be there. */
const TOP_HZ = 2900;

/** Sets out with each string at its start frequency. */
export function jointState(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  startsHz: readonly number[],
): JointState {
  const count = Math.max(8, Math.floor((endSeconds - startSeconds) / HOP_SECONDS) + 1);
  const grid = { firstSeconds: startSeconds, hopSeconds: HOP_SECONDS, count };
  const taper = Float64Array.from({ length: count }, (_, m) => {
    const share = (Math.min(m, count - 1 - m) + 0.5) / (TAPER_SHARE * count);
    return share < 1 ? 0.5 - 0.5 * Math.cos(Math.PI * share) : 1;
  });
  const strings = startsHz.map((baseHz): JointString => {
    const partialCount = Math.max(1, Math.floor(TOP_HZ / baseHz));
    const courseCycles = new Float64Array(count);
    const frames = demodulate(segment, grid, baseHz, null, partialCount);
    const gain = new Float64Array(count).fill(1);
    return {
      baseHz,
      courseCycles,
      gain,
      frames,
      partialCount,
      own: [],
      located: false,
      followed: false,
      ownCourse: false,
    };
  });
  return { segment, grid, taper, strings };
}

/** Gives a string another base frequency or course, and its frames along it. */
export function moveString(
  { segment, grid }: JointState,
  string: JointString,
  baseHz: number,
  courseCycles: Float64Array,
): void {
  string.baseHz = baseHz;
  string.courseCycles = courseCycles;
  string.frames = demodulate(segment, grid, baseHz, courseCycles, string.partialCount);
}

/** Mean frequency of a string over the passage: phase gone through over time. */
export function meanHz({ grid }: JointState, { baseHz, courseCycles }: JointString): number {
  const last = grid.count - 1;
  return baseHz + (courseCycles[last] - courseCycles[0]) / (last * grid.hopSeconds);
}
