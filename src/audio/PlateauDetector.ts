import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** A flat top needs this many neighbouring samples: two equal ones happen at any natural crest. */
const LEAST_FLAT_SAMPLES = 3;
/** Samples within this many quantisation steps of the channel's extreme are level with it: the same whole number. */
const FLAT_STEPS = 0.5;
/** ... or within this part of it, which lets the noise of a converter behind an analogue limit pass (-86 dB). */
const FLAT_SHARE = 5e-5;
/**
 * A natural crest is a parabola: what is `depth` high and n samples wide has fallen by 9 * depth n samples further out
 * (a maximally flat one, t^4, by 81 * depth; rounding can hide another depth). A cut top falls faster, so this many depths must be passed by then.
 */
const KINK_DEPTHS = 100;
/** Once a step is known, so much of each piece is searched for a smaller one. */
const LEARN_SAMPLES = 4096;
/** A level counts as digital full scale from here on (-0.013 dB). */
const FULL_SCALE = 0.9985;
/** Below full scale a flat top must come back this often before it is called a limit rather than chance. */
const LEAST_TOPS_BELOW_FULL_SCALE = 3;
/** A side whose extreme is fewer depths high than this is too coarsely quantised to tell a crest from a cut. */
const LEAST_DEPTHS_HIGH = 64;
/** An extreme below this part of the opposite one is the foot of a lopsided waveform (a pulse), not a limit. */
const LEAST_SHARE_OF_OTHER_SIDE = 0.25;

/** The kernels compare 32-bit floats, and this is the smallest above 0. */
const SMALLEST_SAMPLE = 2 ** -149;

/** Follows the tops of one sign. Offsets are in samples since the start of the channel. */
class Side {
  /** The highest level met, within `depth`; everything counted so far lies there. */
  anchor = 0;
  count = 0;
  sampleCount = 0;
  first = -1;
  nearEdge = Number.MIN_VALUE;
  open = false;
  depth = 0;
  private entry = 0;
  private firstFlat = 0;
  private lastFlat = 0;
  private flat = 0;
  private longest = 0;
  private run = 0;
  private readonly sign: number;

  constructor(sign: number) {
    this.sign = sign;
  }

  setDepth(quantum: number): void {
    this.depth = Math.max(FLAT_STEPS * quantum, FLAT_SHARE * this.anchor);
    this.nearEdge = Math.max(Number.MIN_VALUE, this.anchor - KINK_DEPTHS * this.depth);
  }

  /** @param level - the sample times the sign of this side, or NaN where the sample can't be sound */
  push(level: number, samples: Float32Array, i: number, offset: number, quantum: number): void {
    if (!(level >= this.nearEdge)) {
      if (this.open) this.close(offset + i);
      return;
    }
    if (!this.open) {
      this.open = true;
      this.enter(offset + i);
    }
    if (level > this.anchor + this.depth) this.raise(level, samples, i, offset, quantum);
    if (level >= this.anchor - this.depth) {
      if (this.flat === 0) this.firstFlat = offset + i;
      this.run = this.lastFlat === offset + i - 1 ? this.run + 1 : 1;
      this.longest = Math.max(this.longest, this.run);
      this.lastFlat = offset + i;
      this.flat++;
    }
  }

  close(end: number): void {
    this.open = false;
    // What begins with the file has no way up to judge.
    const steepBefore = this.entry > 0 && this.firstFlat - this.entry <= this.flat;
    const steepAfter = end - 1 - this.lastFlat <= this.flat;
    if (this.longest < LEAST_FLAT_SAMPLES || !steepBefore || !steepAfter) return;
    if (this.count === 0) this.first = this.firstFlat;
    this.count++;
    this.sampleCount += this.flat;
  }

  private enter(position: number): void {
    this.entry = position;
    this.flat = 0;
    this.longest = 0;
    this.run = 0;
    this.lastFlat = -2;
  }

  /** A clearly higher level: what was counted below it was no limit. The way up is looked at again from the new edge. */
  private raise(level: number, samples: Float32Array, i: number, offset: number, quantum: number): void {
    this.anchor = level;
    this.count = 0;
    this.sampleCount = 0;
    this.setDepth(quantum);
    let j = i;
    while (j > 0 && offset + j > this.entry && samples[j - 1] * this.sign >= this.nearEdge) j--;
    this.enter(offset + j);
  }
}

/**
 * Finds tops cut flat in one channel: at digital full scale, or lower where an analogue or digital limit came before.
 *
 * A cut top has at least three samples level with the channel's own extreme and a kink at both ends. The natural crest
 * of a low tone has many equal samples too in a coarse format, or at a high sample rate, but no kink. One swing to the
 * limit counts once. Method: our own, derived from the shape of a crest (see the constants).
 */
export class PlateauDetector {
  private readonly upper = new Side(1);
  private readonly lower = new Side(-1);
  private offset = 0;
  /** Smallest step between neighbouring samples so far; Infinity where nothing moved. */
  quantum = Number.POSITIVE_INFINITY;

  /**
   * @param largest - magnitudes above this can't be sound
   * @param place - where a copy of the samples lies in the kernels' memory; made where not given
   */
  add(samples: Float32Array, largest: number, place = copied(samples)): void {
    this.learnQuantum(samples.length, place);
    const { upper, lower, offset } = this;
    const quantum = Number.isFinite(this.quantum) ? this.quantum : 0;
    upper.setDepth(quantum);
    lower.setDepth(quantum);
    const length = samples.length;
    for (let i = 0; i < length; i++) {
      if (!upper.open && !lower.open) {
        // Most samples lie between the two edges, and neither edge moves while they do.
        const lowest = -Math.max(SMALLEST_SAMPLE, lower.nearEdge);
        const highest = Math.max(SMALLEST_SAMPLE, upper.nearEdge);
        i = kernels().functions.firstOutside(place, i, length, lowest, highest);
        if (i === length) break;
      }
      const value = samples[i];
      const level = Math.abs(value) <= largest ? value : Number.NaN;
      upper.push(level, samples, i, offset, quantum);
      lower.push(-level, samples, i, offset, quantum);
    }
    this.offset += samples.length;
  }

  /** Counts and the offset of the first cut top, in samples (-1 where there is none). */
  finish(): { count: number; sampleCount: number; first: number } {
    const sides = [this.upper, this.lower];
    const highest = Math.max(this.upper.anchor, this.lower.anchor);
    const cut = sides.filter((side) => {
      // The largest positive value of an 8-bit file is 127/128, so full scale is at least one step wide.
      const full = side.anchor >= Math.min(FULL_SCALE, 1 - 1.01 * this.quantum);
      const least = full ? 1 : LEAST_TOPS_BELOW_FULL_SCALE;
      const judged = side.anchor >= LEAST_DEPTHS_HIGH * side.depth;
      return judged && side.count >= least && side.anchor >= LEAST_SHARE_OF_OTHER_SIDE * highest;
    });
    return {
      count: cut.reduce((sum, side) => sum + side.count, 0),
      sampleCount: cut.reduce((sum, side) => sum + side.sampleCount, 0),
      first: cut.length === 0 ? -1 : Math.min(...cut.map((side) => side.first)),
    };
  }

  private learnQuantum(length: number, place: number): void {
    const learnAll = this.offset === 0 || this.quantum === Number.POSITIVE_INFINITY;
    const count = learnAll ? length : Math.min(LEARN_SAMPLES, length);
    this.quantum = kernels().functions.smallestStep(place, count, this.quantum);
  }
}

function copied(samples: Float32Array): number {
  const at = kernels().scratch(samples.byteLength, ScratchUser.survey);
  kernels().f32.set(samples, at / samples.BYTES_PER_ELEMENT);
  return at;
}
