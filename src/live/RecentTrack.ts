import { FRAME_HOP_SECONDS, FrameTracker } from "../pitch/FrameTracker.js";
import { soundingThreshold, voicedFrames } from "../pitch/voicedFrames.js";
import type { RecentBand } from "./RecentBand.js";
import { RollingValues } from "./RollingValues.js";

/** How loud strings and pauses are is judged by so much of the past. */
const MEMORY_SECONDS = 60;
/** So much of the track is looked at. */
const LOOK_SECONDS = 8;
const SILENCE_DB = -200;
/** Several strings at once have a weaker periodicity than one, noise a weaker one still (0.25 at most). */
const MIXTURE_CLARITY = 0.3;

/** The last frames of the track. */
export interface RecentFrames {
  /** Number of the first frame here; frame k is centred on k hops. */
  readonly first: number;
  readonly hopSeconds: number;
  readonly frequencyHz: Float32Array;
  readonly clarity: Float32Array;
  readonly levelDb: Float32Array;
  /** 1 for each frame in which something with one pitch sounds, else 0. */
  readonly voiced: Uint8Array;
  /** 1 for each frame in which something with a pitch or several sounds, else 0. */
  readonly sounding: Uint8Array;
}

/** Frame-wise fundamental of the last seconds, made as the band comes in; as `trackPitch` makes it of a whole recording. */
export class RecentTrack {
  private readonly band: RecentBand;
  private readonly tracker: FrameTracker;
  private readonly frequencyHz = rolling();
  private readonly clarity = rolling();
  private readonly levelDb = rolling();

  constructor(band: RecentBand) {
    this.band = band;
    this.tracker = new FrameTracker(band.rateHz);
  }

  /** Tracks the frames that have become whole. */
  advance(): void {
    const { band, tracker } = this;
    const half = tracker.frameSamples / 2;
    const startOf = (frame: number) => Math.round(frame * FRAME_HOP_SECONDS * band.rateHz) - half;
    const from = startOf(this.frequencyHz.end);
    const held = band.slice(from, band.end);
    const found = { frequencyHz: [] as number[], clarity: [] as number[], levelDb: [] as number[] };
    for (let frame = this.frequencyHz.end; startOf(frame) + tracker.frameSamples <= band.end; frame++) {
      const { frequencyHz, clarity, power } = tracker.track(held, startOf(frame) - from);
      found.frequencyHz.push(frequencyHz);
      found.clarity.push(clarity);
      found.levelDb.push(power > 0 ? Math.max(SILENCE_DB, 10 * Math.log10(power)) : SILENCE_DB);
    }
    this.frequencyHz.push(Float32Array.from(found.frequencyHz));
    this.clarity.push(Float32Array.from(found.clarity));
    this.levelDb.push(Float32Array.from(found.levelDb));
  }

  frames(): RecentFrames {
    const end = this.frequencyHz.end;
    const remembered = Math.max(0, end - Math.round(MEMORY_SECONDS / FRAME_HOP_SECONDS));
    const first = Math.max(0, end - Math.round(LOOK_SECONDS / FRAME_HOP_SECONDS));
    const track = {
      hopSeconds: FRAME_HOP_SECONDS,
      frequencyHz: this.frequencyHz.slice(remembered, end),
      clarity: this.clarity.slice(remembered, end),
      levelDb: this.levelDb.slice(remembered, end),
    };
    const { thresholdDb } = soundingThreshold(track);
    const voiced = voicedFrames(track);
    const sounding = voiced.map((isVoiced, i) =>
      isVoiced === 1 || (track.levelDb[i] >= thresholdDb && track.clarity[i] >= MIXTURE_CLARITY) ? 1 : 0,
    );
    return {
      first,
      hopSeconds: FRAME_HOP_SECONDS,
      frequencyHz: track.frequencyHz.subarray(first - remembered),
      clarity: track.clarity.subarray(first - remembered),
      levelDb: track.levelDb.subarray(first - remembered),
      voiced: voiced.subarray(first - remembered),
      sounding: sounding.subarray(first - remembered),
    };
  }
}

function rolling(): RollingValues {
  return new RollingValues(Math.round(MEMORY_SECONDS / FRAME_HOP_SECONDS));
}
