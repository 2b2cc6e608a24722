import type { Finding, FindingSeverity } from "../audio/Finding.js";
import type { RecordingEncoding } from "../audio/RecordingEncoding.js";

/** What can be found about a take of taps, besides what is found of any recording. */
export type TapFindingCode =
  | "no-tap"
  | "not-taps"
  | "few-taps"
  | "taps-too-close"
  | "tap-disturbed"
  | "tap-clipped"
  | "string-rings"
  | "steady-line"
  | "modes-unclear"
  | "modes-crowded"
  | "room-strong"
  | "taps-noisy"
  | "taps-left-out";

/** Something worth telling about the taps. */
export interface TapOwnFinding {
  readonly code: TapFindingCode;
  readonly severity: FindingSeverity;
  readonly values: Readonly<Record<string, number | string>>;
}

/** A finding of the recording or of the taps. */
export type TapFinding = TapOwnFinding | Finding;

/** Why a tap was left out. */
export type TapLack = "too-close" | "disturbed" | "clipped" | "beyond-limit";

/** One tap of the take. */
export interface TapMoment {
  readonly atSeconds: number;
  /** Peak in the analysis band, relative to full scale. */
  readonly peakDb: number;
  /** Null where it was used. */
  readonly leftOut: TapLack | null;
}

/** A value with its 95 % interval, and how far single taps scatter about it. */
export interface TapValue {
  readonly value: number;
  readonly interval95: readonly [number, number];
  /** Standard deviation over the taps that show it by themselves; null where fewer than two do. */
  readonly spread: number | null;
}

/** A decaying mode of what was tapped, from all taps together. */
export interface ModeReading {
  /** At which it rings (its pole's imaginary part); the undamped one is higher by 1 / (8 Q^2) of it. */
  readonly frequencyHz: TapValue;
  /** Frequency over the width at half power. */
  readonly q: TapValue;
  /** Frequency / Q. */
  readonly bandwidthHz: number;
  /** In which it falls to 1/e: Q / (pi f). */
  readonly decaySeconds: number;
  /** In which it falls by 60 dB. */
  readonly t60Seconds: TapValue;
  /** Amplitude as the tap begins against that of the strongest mode; intervals null with fewer than three taps. */
  readonly strengthDb: {
    readonly value: number;
    readonly interval95: readonly [number, number] | null;
    readonly spread: number | null;
  };
  /** Taps that show it by themselves. */
  readonly tapsFound: number;
  /** A neighbour stands closer than the wider of the two is at half power. */
  readonly isOverlapping: boolean;
  /** As each tap by itself has it, in the order of the taps used; null where it does not show it. */
  readonly byTap: readonly (TapModeValues | null)[];
  /** Standard errors, for differences: of ln frequency, of ln Q, of the strength in dB (null with fewer than three taps). */
  readonly errors: { readonly lnFrequency: number; readonly lnQ: number; readonly strengthDb: number | null };
}

/** What one tap by itself says of a mode. */
export interface TapModeValues {
  readonly frequencyHz: number;
  readonly q: number;
  readonly strengthDb: number;
}

/** A vibration that was heard and is no mode of the body, or none that can be read. */
export interface LeftOutVibration {
  readonly frequencyHz: number;
  readonly q: number | null;
  readonly reason: "string" | "steady" | "unclear";
}

/** Energy of the taps in a third-octave band, relative to the median of the bands from 355 to 1413 Hz. */
export interface TapBand {
  readonly frequencyHz: number;
  /** Null where the taps don't stand over the noise. */
  readonly levelDb: number | null;
  readonly interval95Db: readonly [number, number] | null;
}

/** Everything a take of taps says. */
export interface TapReading {
  readonly sampleRateHz: number;
  readonly channelCount: number;
  /** How its file holds it; not there for samples that come from no file. */
  readonly encoding?: RecordingEncoding | undefined;
  readonly durationSeconds: number;
  /** In order of time. */
  readonly taps: readonly TapMoment[];
  /** Rising in frequency; empty where the take can't be used. */
  readonly modes: readonly ModeReading[];
  readonly leftOut: readonly LeftOutVibration[];
  readonly response: readonly TapBand[];
  /** Share of the taps' energy, 45 to 2600 Hz, that the modes and what was left out explain, 0 to 1; null without a fit. */
  readonly explainedShare: number | null;
  /** What does not follow the law of decaying modes, against the rest, in dB; null where none is to be seen. */
  readonly roomDb: number | null;
  /** Peak of the median tap over the noise between the taps, in dB; null where there is no noise. */
  readonly peakToNoiseDb: number | null;
  readonly findings: readonly TapFinding[];
}
