import { FRAME_HOP_SECONDS, FrameTracker } from "./FrameTracker.js";
import type { TrackPart } from "./TrackPart.js";

const SILENCE_DB = -200;
/** Frames this far apart are compared; they share half of their samples or more. */
const STRIDE_FRAMES = 5;
/** Where both have one pitch, or none, and differ by no more than this, the frames between lie on a straight line. */
const SAME_PITCH = (5 / 1200) * Math.LN2; // 5 cents
const SAME_CLARITY = 0.1;
const SAME_LEVEL_DB = 1;
/** How a frame was come to (see `TrackPart`). */
const BY_LONG_STEP = 1;
const BY_SINGLE_STEPS = STRIDE_FRAMES + 1;

/**
 * Frame-wise fundamental of a sound that comes decimated (see `Decimator`), in pieces of any size: whatever the pieces, the frames
 * are the same.
 *
 * Where a sound is steady, within 5 cents and 1 dB from a frame to the fifth after it, the four between are not looked at
 * but interpolated. A wheel that turns 3 times a second and stays within that moves the pitch by less than 6 cents, and a
 * straight line over 50 ms leaves out 0.6 cent of it at most.
 */
export class BandTracker {
  private readonly rate: number;
  private readonly tracker: FrameTracker;
  private readonly half: number;
  private readonly frameCount: number;
  private readonly firstFrame: number;
  /** NaN: not looked at yet. */
  private readonly frequencyHz: Float32Array;
  private readonly clarity: Float32Array;
  private readonly levelDb: Float32Array;
  private readonly arrival: Uint8Array;
  private held: Float32Array[];
  private heldStart: number;
  /** Everything up to this frame is settled. */
  private settled: number;
  /** Single steps since the last long one, or the beginning. */
  private singleSteps = 0;
  private hasLongStep = false;
  private rest: TrackPart | null = null;

  /**
   * @param sampleRateHz - after decimation
   * @param durationSeconds - of the whole recording: frames are given from the first to the last sample
   * @param firstFrame - begins here; the samples to be taken in begin at `firstSample` then
   */
  constructor(sampleRateHz: number, channelCount: number, durationSeconds: number, firstFrame = 0) {
    this.rate = sampleRateHz;
    this.tracker = new FrameTracker(sampleRateHz);
    this.half = this.tracker.frameSamples / 2;
    this.frameCount = Math.floor(durationSeconds / FRAME_HOP_SECONDS) + 1;
    this.firstFrame = firstFrame;
    this.settled = firstFrame - 1;
    this.frequencyHz = new Float32Array(this.frameCount).fill(Number.NaN);
    this.clarity = new Float32Array(this.frameCount);
    this.levelDb = new Float32Array(this.frameCount).fill(SILENCE_DB);
    this.arrival = new Uint8Array(this.frameCount);
    this.heldStart = Math.round(firstFrame * FRAME_HOP_SECONDS * sampleRateHz) - this.half;
    const before = Math.max(0, -this.heldStart);
    this.held = Array.from({ length: channelCount }, () => new Float32Array(before));
  }

  /** Of the samples of each channel the first that it needs. */
  get firstSample(): number {
    return Math.max(0, this.heldStart + this.held[0].length);
  }

  /** Takes in the next samples of every channel. */
  take(added: readonly Float32Array[]): void {
    this.held = this.held.map((old, channel) => joined(old, added[channel]));
    this.settle();
    const used = Math.max(0, Math.min(this.held[0].length, this.startOf(this.settled + 1)));
    this.held = this.held.map((samples) => samples.slice(used));
    this.heldStart += used;
  }

  /** Settles the rest, as if silence followed. Call once. */
  finish(): TrackPart {
    this.take(this.held.map(() => new Float32Array(this.tracker.frameSamples)));
    const { firstFrame } = this;
    return {
      firstFrame,
      hopSeconds: FRAME_HOP_SECONDS,
      frequencyHz: this.frequencyHz.subarray(firstFrame),
      clarity: this.clarity.subarray(firstFrame),
      levelDb: this.levelDb.subarray(firstFrame),
      arrival: this.arrival.subarray(firstFrame),
    };
  }

  /** Whether everything is settled. */
  get isDone(): boolean {
    return this.settled + 1 >= this.frameCount;
  }

  /** Goes on with what another tracker made of the rest, from the first frame on that both have come to in the same way. */
  meet(rest: TrackPart): void {
    this.rest = rest;
  }

  /** From a frame that both have come to in the same way the rest is what this one would make of it. */
  private goesOnWith(rest: TrackPart): boolean {
    const from = this.settled - rest.firstFrame;
    const arrival = this.arrival[this.settled];
    if (!(from >= 0) || arrival === 0 || rest.arrival[from] !== arrival) return false;
    for (const key of ["frequencyHz", "clarity", "levelDb", "arrival"] as const) {
      this[key].set(rest[key].subarray(from + 1), this.settled + 1);
    }
    this.settled = this.frameCount - 1;
    return true;
  }

  private startOf(frame: number): number {
    return Math.round(frame * FRAME_HOP_SECONDS * this.rate) - this.half - this.heldStart;
  }

  private isThere(frame: number): boolean {
    return this.startOf(frame) + this.tracker.frameSamples <= this.held[0].length;
  }

  private settle(): void {
    while (this.settled + 1 < this.frameCount) {
      const { settled, rest } = this;
      if (rest !== null && this.goesOnWith(rest)) break;
      const ahead = settled + STRIDE_FRAMES;
      if (settled >= this.firstFrame && ahead < this.frameCount) {
        if (!this.isThere(ahead)) break;
        this.look(ahead);
        if (this.isSteady(settled, ahead)) {
          this.interpolate(settled, ahead);
          this.settled = ahead;
          this.singleSteps = 0;
          this.hasLongStep = true;
          this.arrival[ahead] = BY_LONG_STEP;
          continue;
        }
      }
      if (!this.isThere(settled + 1)) break;
      // One by one, so that where the long steps begin is for the sound to say and not for the count of frames.
      this.look(settled + 1);
      this.settled++;
      this.singleSteps++;
      // What lies further back than a long step has left nothing ahead.
      if (this.singleSteps >= STRIDE_FRAMES) this.arrival[this.settled] = BY_SINGLE_STEPS;
      else if (this.hasLongStep) this.arrival[this.settled] = BY_LONG_STEP + this.singleSteps;
    }
  }

  private look(frame: number): void {
    if (!Number.isNaN(this.frequencyHz[frame])) return;
    const found = this.tracker.track(this.held, this.startOf(frame));
    this.frequencyHz[frame] = found.frequencyHz;
    this.clarity[frame] = found.clarity;
    if (found.power > 0) this.levelDb[frame] = Math.max(SILENCE_DB, 10 * Math.log10(found.power));
  }

  private isSteady(from: number, to: number): boolean {
    const { frequencyHz, clarity, levelDb } = this;
    return (
      Math.abs(frequencyHz[to] - frequencyHz[from]) <= SAME_PITCH * frequencyHz[from] &&
      Math.abs(clarity[to] - clarity[from]) <= SAME_CLARITY &&
      Math.abs(levelDb[to] - levelDb[from]) <= SAME_LEVEL_DB
    );
  }

  private interpolate(from: number, to: number): void {
    const { frequencyHz, clarity, levelDb } = this;
    for (let frame = from + 1; frame < to; frame++) {
      if (!Number.isNaN(frequencyHz[frame])) continue;
      const share = (frame - from) / (to - from);
      frequencyHz[frame] = frequencyHz[from] + share * (frequencyHz[to] - frequencyHz[from]);
      clarity[frame] = clarity[from] + share * (clarity[to] - clarity[from]);
      levelDb[frame] = levelDb[from] + share * (levelDb[to] - levelDb[from]);
    }
  }
}

function joined(first: Float32Array, second: Float32Array): Float32Array {
  const both = new Float32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
