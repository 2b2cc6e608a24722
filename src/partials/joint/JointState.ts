import { blockEnergies } from "../../signal/blockEnergies.js";
import { withRamp } from "../../signal/withRamp.js";
import type { AnalysisSegment } from "../AnalysisSegment.js";
import type { FrameGrid } from "../FrameGrid.js";
import { ConstantFrames } from "./ConstantFrames.js";
import { CourseFrames } from "./CourseFrames.js";
import { SegmentSpectrum } from "./SegmentSpectrum.js";

/** What is known so far of one of the strings that sound together. */
export interface JointString {
  baseHz: number;
  /** Phase ahead of `baseHz` in cycles, at each frame. */
  courseCycles: Float64Array;
  /** How its strength moves, the same for all its partials, about 1 on the mean. */
  gain: Float64Array;
  /** Frames of its partials along its own course, the other strings still in them. */
  frames: CourseFrames;
  /** The same at a constant frequency, from which those along a course are turned. */
  cut: ConstantFrames;
  readonly partialCount: number;
  /** True for a partial that no other string comes near. */
  own: readonly boolean[];
  /** The others with its target, that are followed together with it. */
  equals: readonly JointString[];
  /** True once its frequency is known well enough to be taken out of the other strings' partials. */
  located: boolean;
  /** True once its movement could be followed; until then its course is a straight line. */
  followed: boolean;
  /** True where its course comes from partials of its own alone. */
  ownCourse: boolean;
}

/** One passage and the strings in it. */
export interface JointState {
  readonly spectrum: SegmentSpectrum;
  readonly grid: FrameGrid;
  /** Weight of each frame: flat, with short cosine ends, so that far partials don't leak in. */
  readonly taper: Float64Array;
  /** Sum of these weights. */
  readonly taperTotal: number;
  readonly strings: readonly JointString[];
  /** Mean power of the passage, 1 for a full-scale sine. */
  readonly power: number;
}

const TAPER_SHARE = 0.08;
/** Partials up to here; what lies above is left alone, though it may be there. */
const TOP_HZ = 2900;
/** Frames are turned as long as the highest partial stays this close to where they were cut; else they are cut again. */
const LARGEST_TURN_HZ = 3;

/** Sets out with each string at its start frequency. */
export function jointState(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  startsHz: readonly number[],
): JointState {
  const spectrum = new SegmentSpectrum(segment, startSeconds, endSeconds);
  const { grid } = spectrum;
  const { count } = grid;
  const taper = Float64Array.from({ length: count }, (_, m) => {
    const share = (Math.min(m, count - 1 - m) + 0.5) / (TAPER_SHARE * count);
    return share < 1 ? 0.5 - 0.5 * Math.cos(Math.PI * share) : 1;
  });
  const strings = startsHz.map((baseHz): JointString => {
    const partialCount = Math.max(1, Math.floor(TOP_HZ / baseHz));
    const courseCycles = new Float64Array(count);
    const cut = new ConstantFrames(spectrum, baseHz);
    const gain = new Float64Array(count).fill(1);
    return {
      baseHz,
      courseCycles,
      gain,
      frames: new CourseFrames(cut, courseCycles),
      cut,
      partialCount,
      own: [],
      equals: [],
      located: false,
      followed: false,
      ownCourse: false,
    };
  });
  const taperTotal = taper.reduce((sum, weight) => sum + weight, 0);
  return { spectrum, grid, taper, taperTotal, strings, power: meanPower(segment, startSeconds, endSeconds) };
}

/** Gives a string another base frequency or course, and its frames along it. */
export function moveString(
  { spectrum, grid }: JointState,
  string: JointString,
  baseHz: number,
  courseCycles: Float64Array,
): void {
  string.baseHz = baseHz;
  string.courseCycles = courseCycles;
  if (Math.abs(baseHz - string.cut.baseHz) * string.partialCount > LARGEST_TURN_HZ) {
    string.cut = new ConstantFrames(spectrum, baseHz);
  }
  const aheadCycles = (baseHz - string.cut.baseHz) * grid.hopSeconds;
  string.frames = new CourseFrames(string.cut, withRamp(courseCycles, aheadCycles));
}

/** Puts a string on a course; its mean slope goes into the base, so that comparing bases tells which partials lie near. */
export function moveAlong(state: JointState, string: JointString, courseCycles: Float64Array): void {
  const last = state.grid.count - 1;
  const slope = (courseCycles[last] - courseCycles[0]) / last;
  const baseHz = string.baseHz + slope / state.grid.hopSeconds;
  moveString(state, string, baseHz, withRamp(courseCycles, -slope));
}

/** Mean frequency of a string over the passage: phase gone through over time. */
export function meanHz({ grid }: JointState, { baseHz, courseCycles }: JointString): number {
  const last = grid.count - 1;
  return baseHz + (courseCycles[last] - courseCycles[0]) / (last * grid.hopSeconds);
}

function meanPower(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  start: number,
  end: number,
): number {
  const from = Math.max(0, Math.round((start - firstSeconds) * sampleRateHz));
  const to = Math.min(samples.length, Math.round((end - firstSeconds) * sampleRateHz));
  if (to <= from) return 0;
  const [energy] = blockEnergies(samples.subarray(from, to), to - from);
  return (2 * energy) / (to - from);
}
