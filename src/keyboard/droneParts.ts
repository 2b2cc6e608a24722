import type { DronePhasors } from "./DronePhasors.js";
import { type Blocks, robustAmplitude } from "./robustAmplitude.js";

/** One partial of a drone over a piece of the scale. */
export interface DronePart {
  /** Complex amplitude at every centre, `CENTRE_SECONDS` apart from the piece's start. */
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  /** Strength of the whole drone in every block, about 1; the same for all its partials. */
  readonly gain: Float64Array;
}

const BLOCK_SECONDS = 0.05;
const CENTRE_SECONDS = 1;
/** Amplitudes are what most blocks this far around agree on: longer than a few notes of the scale. */
const REACH_SECONDS = 4;
/** Partials of two drones closer than this are parted by least squares. */
const NEAR_HZ = 4;
/** The wheel moves the strength by this much at most; more is a note that falls on many partials. */
const LARGEST_GAIN_MOVE = 0.2;

/** A drone as it was found in a piece of the scale. */
export interface FoundDrone {
  readonly parts: readonly DronePart[];
  readonly phasors: DronePhasors;
}

/**
 * What the partials of a drone have in common over some seconds, whatever falls on single ones of them for a while.
 *
 * Along the drone's course each partial stands still: of its amplitudes in blocks of 50 ms a robust mean is taken (Tukey's
 * biweight), which a note that sounds for a small part of the time does not move. The strength common to all partials in a
 * block is the weighted median of what they show, again so that single ones have no say.
 *
 * @param rest - the sound less all drones as they were found so far
 * @param before - the drone as it was found so far, with no parts the first time
 * @param others - the other drones as they were found so far: partials that all but coincide are parted by least squares
 */
export function droneParts(
  rest: Float64Array,
  before: FoundDrone,
  others: readonly FoundDrone[],
  sampleRateHz: number,
  partialCount: number,
): FoundDrone {
  const { phasors } = before;
  const { cycles } = phasors;
  const blockSamples = Math.round(BLOCK_SECONDS * sampleRateHz);
  const blocks = Math.max(1, Math.floor(rest.length / blockSamples));
  const rows = phasors.blockAmplitudes(rest, blockSamples, blocks, partialCount);
  addKnown(rows, before.parts);
  const centres = Math.max(1, Math.ceil((blocks * BLOCK_SECONDS) / CENTRE_SECONDS)) + 1;
  const amplitudes = (row: Blocks, columns: readonly Blocks[]) =>
    robustAmplitude(row, columns, centres, CENTRE_SECONDS / BLOCK_SECONDS, REACH_SECONDS / BLOCK_SECONDS);
  const flat = new Float64Array(blocks).fill(1);
  const rough = before.parts.length > 0 ? before.parts : rows.map((row) => amplitudes(row, [steady(flat)]));
  const gain = commonGain(rows, rough);
  const parts = rows.map((row, n) => {
    const near = neighboursOf(cycles, n + 1, others, blocks, blockSamples, sampleRateHz);
    for (const one of near) addTurned(row, one);
    const columns = [steady(gain), ...near.map(({ column }) => column)];
    return { ...amplitudes(row, columns), gain };
  });
  return { phasors, parts };
}

function between(values: Float64Array, position: number): number {
  const at = Math.min(values.length - 1, Math.max(0, position));
  const b = Math.min(values.length - 2, Math.floor(at));
  return b < 0 ? (values[0] ?? 0) : values[b] + (at - b) * (values[b + 1] - values[b]);
}

/** Adds what was taken out of the sound before. */
function addKnown(rows: readonly Blocks[], parts: readonly DronePart[]): void {
  for (const [n, { real, imaginary, gain }] of parts.entries()) {
    const row = rows[n];
    for (let b = 0; b < row.real.length; b++) {
      const position = ((b + 0.5) * BLOCK_SECONDS) / CENTRE_SECONDS;
      row.real[b] += gain[b] * between(real, position);
      row.imaginary[b] += gain[b] * between(imaginary, position);
    }
  }
}

/** Another drone's partial that all but coincides with one: how it moves against it, and how strong it was found to be. */
interface NearPart {
  readonly column: Blocks;
  readonly part: DronePart;
}

function steady(gain: Float64Array): Blocks {
  return { real: gain, imaginary: new Float64Array(gain.length) };
}

function neighboursOf(
  cycles: Float64Array,
  number: number,
  others: readonly FoundDrone[],
  blocks: number,
  blockSamples: number,
  sampleRateHz: number,
): NearPart[] {
  const span = (values: Float64Array) => values[values.length - 1] - values[0];
  const seconds = cycles.length / sampleRateHz;
  return others.flatMap((other) => {
    const nearest = Math.max(1, Math.round((number * span(cycles)) / span(other.phasors.cycles)));
    const apartHz = Math.abs(nearest * span(other.phasors.cycles) - number * span(cycles)) / seconds;
    const part = other.parts[nearest - 1];
    if (part === undefined || apartHz > NEAR_HZ) return [];
    const real = new Float64Array(blocks);
    const imaginary = new Float64Array(blocks);
    for (let b = 0; b < blocks; b++) {
      const i = Math.min(cycles.length - 1, Math.round((b + 0.5) * blockSamples));
      const turns = nearest * other.phasors.cycles[i] - number * cycles[i];
      const angle = 2 * Math.PI * (turns - Math.floor(turns));
      real[b] = part.gain[b] * Math.cos(angle);
      imaginary[b] = part.gain[b] * Math.sin(angle);
    }
    return [{ column: { real, imaginary }, part }];
  });
}

function addTurned(row: Blocks, { column, part }: NearPart): void {
  for (let b = 0; b < row.real.length; b++) {
    const position = ((b + 0.5) * BLOCK_SECONDS) / CENTRE_SECONDS;
    const a = between(part.real, position);
    const c = between(part.imaginary, position);
    row.real[b] += column.real[b] * a - column.imaginary[b] * c;
    row.imaginary[b] += column.real[b] * c + column.imaginary[b] * a;
  }
}

/** The drone as it sounds by its parts. */
export function droneSamples({ parts, phasors }: FoundDrone, sampleRateHz: number): Float64Array {
  const [first] = parts;
  if (first === undefined) return new Float64Array(phasors.cycles.length);
  const blockSamples = Math.round(BLOCK_SECONDS * sampleRateHz);
  const sound = phasors.sound(parts, CENTRE_SECONDS * sampleRateHz);
  for (let i = 0; i < sound.length; i++) sound[i] *= between(first.gain, i / blockSamples - 0.5);
  return sound;
}

/** Strength, about 1, in every block. */
function commonGain(rows: readonly Blocks[], parts: readonly Blocks[]): Float64Array {
  const gain = new Float64Array(rows[0]?.real.length ?? 0).fill(1);
  for (let block = 0; block < gain.length; block++) {
    const position = ((block + 0.5) * BLOCK_SECONDS) / CENTRE_SECONDS;
    const strengths = parts.map(({ real, imaginary }, n): Weighted => {
      const a = between(real, position);
      const b = between(imaginary, position);
      const power = Math.max(a * a + b * b, 1e-300);
      const along = rows[n].real[block] * a + rows[n].imaginary[block] * b;
      return { value: along / power, weight: Math.sqrt(power) };
    });
    const value = weightedMedian(strengths);
    if (Math.abs(value - 1) < LARGEST_GAIN_MOVE) gain[block] = value;
  }
  return gain;
}

interface Weighted {
  readonly value: number;
  readonly weight: number;
}

function weightedMedian(values: readonly Weighted[]): number {
  const sorted = [...values].sort((a, b) => a.value - b.value);
  const half = sorted.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let sum = 0;
  for (const { value, weight } of sorted) {
    sum += weight;
    if (sum >= half) return value;
  }
  return 0;
}
