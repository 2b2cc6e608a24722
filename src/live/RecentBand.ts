import type { AudioRecording } from "../audio/AudioRecording.js";
import { memoryRecording } from "../audio/memoryRecording.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { surveyRecording } from "../audio/surveyRecording.js";
import { Decimator } from "../signal/Decimator.js";
import { RollingValues } from "./RollingValues.js";

/** So much of the analysis band is kept: 32 kB a second and channel. */
const BAND_SECONDS = 9;

/** A stretch of the band as a recording of its own, for what reads recordings. */
export interface BandStretch {
  readonly recording: AudioRecording;
  readonly survey: RecordingSurvey;
  /** When it begins; its own times count from there. */
  readonly firstSeconds: number;
}

/** The last seconds of every channel, decimated to the analysis band. */
export class RecentBand {
  /** Rate after decimation, 8,000 to 16,000 Hz. */
  readonly rateHz: number;
  /** Full-rate samples to one of the band. */
  readonly factor: number;
  private readonly decimators: readonly Decimator[];
  private readonly channels: readonly RollingValues[];

  constructor(sampleRateHz: number, channelCount: number) {
    this.decimators = Array.from({ length: channelCount }, () => new Decimator(sampleRateHz));
    this.rateHz = this.decimators[0].outputRateHz;
    this.factor = this.decimators[0].factor;
    this.channels = this.decimators.map(() => new RollingValues(Math.ceil(BAND_SECONDS * this.rateHz)));
  }

  /** How many samples of the band there are so far. */
  get end(): number {
    return this.channels[0].end;
  }

  push(channels: readonly Float32Array[]): void {
    for (const [c, channel] of channels.entries()) this.channels[c].push(this.decimators[c].push(channel));
  }

  /** Samples numbered from `from` up to `to` of every channel. */
  slice(from: number, to: number): Float32Array[] {
    return this.channels.map((channel) => channel.slice(from, to));
  }

  /** The stretch between two times, or as much of it as there is. */
  stretch(startSeconds: number, endSeconds: number): BandStretch {
    const from = Math.max(0, Math.round(startSeconds * this.rateHz));
    const to = Math.min(this.end, Math.round(endSeconds * this.rateHz));
    const recording = memoryRecording(this.slice(from, to), this.rateHz);
    return { recording, survey: surveyRecording(recording), firstSeconds: from / this.rateHz };
  }
}
