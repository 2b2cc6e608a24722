import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { type JointState, type JointString, jointState, meanHz } from "../partials/joint/JointState.js";
import { settleTogether } from "../partials/joint/settleTogether.js";
import { soundingStrings } from "../partials/joint/soundingStrings.js";
import { DronePhasors } from "./DronePhasors.js";
import { droneParts, droneSamples, type FoundDrone } from "./droneParts.js";
import { heldSound } from "./heldSound.js";

/** A drone is found and followed over pieces of about this length: many notes of the scale, not too much of its wandering. */
const PIECE_SECONDS = 12;
/** What lies above the range that notes are read in plays no part. */
const TOP_HZ = 3400;
/** A drone can't be followed where it is only beginning or ending, and is taken to go on there as it did. */
const INSET_SECONDS = 0.15;
const BEYOND_SECONDS = 0.4;
const LEAST_SECONDS = 1;
/** Read beyond a piece's ends, so that its first and last frames are whole. */
const MARGIN_SECONDS = 0.15;
/** So many times each drone is looked at with the others taken out. */
const ROUNDS = 2;

/** What is left of a channel once the drones are taken out of it. */
export interface WithoutDrones {
  readonly segment: AnalysisSegment;
  /** What was taken out, sample by sample; null where nothing was. */
  readonly takenOut: Float32Array | null;
  /** For each drone: mean pitch over the pieces in which it was heard, and the share of them. */
  readonly drones: readonly {
    readonly index: number;
    readonly frequencyHz: number;
    readonly share: number;
  }[];
}

/**
 * Takes the drones out of a channel in which a scale is played over them.
 *
 * A drone sounds throughout, so its partials keep their strength and go along one course, while the notes of the scale come
 * and go: each drone is found and followed over several seconds by the joint fit, and what its partials have in common over
 * that time, whatever notes fall on them meanwhile, is subtracted. What a short note of the scale shares with a drone is so
 * told apart by the time before and after it, which the note by itself could not.
 *
 * @param span - where something sounds
 * @param dronesHz - targets of the strings that may sound throughout; one is found within 60 cents of its target
 */
export function takeOutDrones(
  segment: AnalysisSegment,
  span: TimeSpan,
  dronesHz: readonly number[],
): WithoutDrones {
  const { samples: all } = segment;
  if (dronesHz.length === 0) return { segment, takenOut: null, drones: [] };
  const startSeconds = span.startSeconds + INSET_SECONDS;
  const endSeconds = Math.max(startSeconds + LEAST_SECONDS, span.endSeconds - INSET_SECONDS);
  const samples = all.slice();
  const pieces = Math.max(1, Math.round((endSeconds - startSeconds) / PIECE_SECONDS));
  const heard: { index: number; frequencyHz: number }[] = [];
  for (let p = 0; p < pieces; p++) {
    const from = startSeconds + ((endSeconds - startSeconds) * p) / pieces;
    const to = startSeconds + ((endSeconds - startSeconds) * (p + 1)) / pieces;
    const found = jointState(heldPart(segment, from, to), from, to, dronesHz);
    const sounding = soundingStrings(found);
    if (sounding.length === 0) continue;
    const state = { ...found, strings: sounding };
    settleTogether(state);
    for (const string of sounding) {
      heard.push({ index: found.strings.indexOf(string), frequencyHz: meanHz(state, string) });
    }
    subtract(samples, segment, state, from, to, p === 0, p === pieces - 1);
  }
  return {
    segment: { ...segment, samples },
    takenOut: heard.length === 0 ? null : samples.map((value, i) => all[i] - value),
    drones: dronesHz.flatMap((_, index) => {
      const own = heard.filter((one) => one.index === index);
      if (own.length === 0) return [];
      const frequencyHz = own.reduce((sum, one) => sum + one.frequencyHz, 0) / own.length;
      return [{ index, frequencyHz, share: own.length / pieces }];
    }),
  };
}

/** The part of the segment that a piece needs, the notes of the scale weakened. */
function heldPart(segment: AnalysisSegment, fromSeconds: number, toSeconds: number): AnalysisSegment {
  const { samples, sampleRateHz, firstSeconds } = segment;
  const first = Math.max(0, Math.floor((fromSeconds - MARGIN_SECONDS - firstSeconds) * sampleRateHz));
  const last = Math.ceil((toSeconds + MARGIN_SECONDS - firstSeconds) * sampleRateHz);
  return {
    samples: heldSound(samples.subarray(first, last), sampleRateHz),
    sampleRateHz,
    firstSeconds: firstSeconds + first / sampleRateHz,
  };
}

function subtract(
  samples: Float32Array,
  segment: AnalysisSegment,
  state: JointState,
  fromSeconds: number,
  toSeconds: number,
  isFirst: boolean,
  isLast: boolean,
): void {
  const { sampleRateHz, firstSeconds } = segment;
  const at = (seconds: number) => Math.round((seconds - firstSeconds) * sampleRateHz);
  // What sounds before the first frame or after the last is taken to go on as it did.
  const first = Math.max(0, at(fromSeconds) - (isFirst ? Math.round(BEYOND_SECONDS * sampleRateHz) : 0));
  const last = Math.min(
    samples.length,
    at(toSeconds) + (isLast ? Math.round(BEYOND_SECONDS * sampleRateHz) : 0),
  );
  const rest = Float64Array.from(segment.samples.subarray(first, last));
  const cycles = state.strings.map((string) => sampledCycles(state, string, first, rest.length, segment));
  const known = cycles.map((one): FoundDrone => ({ parts: [], phasors: new DronePhasors(one) }));
  for (let round = 0; round < ROUNDS; round++) {
    for (const [s, string] of state.strings.entries()) {
      const others = known.filter((_, o) => o !== s);
      const partialCount = Math.floor(Math.min(TOP_HZ, 0.46 * sampleRateHz) / string.baseHz);
      const found = droneParts(rest, known[s], others, sampleRateHz, partialCount);
      add(rest, droneSamples(known[s], sampleRateHz), 1);
      add(rest, droneSamples(found, sampleRateHz), -1);
      known[s] = found;
    }
  }
  samples.set(Float32Array.from(rest), first);
}

function add(rest: Float64Array, other: Float64Array, sign: number): void {
  for (let i = 0; i < rest.length; i++) rest[i] += sign * other[i];
}

/** Phase of the drone's fundamental in cycles at each sample, straight lines between the frames of its course. */
function sampledCycles(
  { grid }: JointState,
  { baseHz, courseCycles }: JointString,
  first: number,
  length: number,
  { sampleRateHz, firstSeconds }: AnalysisSegment,
): Float64Array {
  const last = grid.count - 1;
  return Float64Array.from({ length }, (_, i) => {
    const since = firstSeconds + (first + i) / sampleRateHz - grid.firstSeconds;
    const position = Math.min(last, Math.max(0, since / grid.hopSeconds));
    const m = Math.min(last - 1, Math.floor(position));
    return baseHz * since + courseCycles[m] + (position - m) * (courseCycles[m + 1] - courseCycles[m]);
  });
}
