import type { Finding } from "../audio/Finding.js";
import type { StringRole } from "../instrument/Instrument.js";
import type { PartialLevel } from "../partials/PartialLevel.js";
import type { StringMovement } from "./StringMovement.js";

/** Whether a string could be read. */
export type StringStatus = "measured" | "not-heard" | "unresolved";

/** What one steady passage says of the string that sounds in it. */
export interface PassageReading {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Mean pitch over exactly this passage. */
  readonly frequencyHz: number;
  readonly deviationCents: number;
  /** 95 % interval for the pitch the string has under this cranking; null where the passage is too short for one. */
  readonly interval95Cents: readonly [number, number] | null;
  /** Standard deviation of the pitch from frame to frame, swing included. */
  readonly unsteadinessCents: number | null;
  /** Peak (half of peak to peak) pitch swing that keeps time with the wheel; null where none was found. */
  readonly swingCents: number | null;
  /** Rate of that swing per second; null where none was found. */
  readonly swingRateHz: number | null;
  readonly levelDb: number | null;
  readonly harmonicToNoiseDb: number | null;
  /** How pitch and level moved; null where that could not be followed. */
  readonly movement: StringMovement | null;
}

/** What a take says of one string. A value that can't be had is null, never 0. */
export interface StringReading {
  readonly name: string;
  readonly role: StringRole | null;
  /** Target frequency in hertz (of the nearest equal-tempered note where no instrument was named). */
  readonly targetHz: number;
  readonly status: StringStatus;
  readonly frequencyHz: number | null;
  /** Cents from the target, sharp positive. */
  readonly deviationCents: number | null;
  readonly interval95Cents: readonly [number, number] | null;
  /** Cents from the target after the common offset of all strings, or the anchor's deviation, is taken off. */
  readonly ownErrorCents: number | null;
  /** 95 % interval of `ownErrorCents`; null without an anchor: the common offset is made of the same readings. */
  readonly ownErrorInterval95Cents: readonly [number, number] | null;
  readonly unsteadinessCents: number | null;
  /** Level of the fitted partials relative to a full-scale sine (0 dB), power mean of the channels. */
  readonly levelDb: number | null;
  /** Power of the fitted partials over the power of everything else between 44.7 Hz and the highest of them. */
  readonly harmonicToNoiseDb: number | null;
  readonly partials: readonly PartialLevel[];
  /** 10 lg(energy of 44.7-177.8 Hz / energy of 177.8-2818.4 Hz); null with no partial below the edge. */
  readonly lowRegisterDb: number | null;
  /** Octave bands relative to their sum, keyed by nominal midband in hertz; null where no partial falls. */
  readonly octaveBandsDb: Readonly<Record<string, number | null>> | null;
  /** Power-weighted centroid of the partials between 44.7 and 2818.4 Hz. */
  readonly centroidHz: number | null;
  /** Amplitude-weighted centroid of whole frames (tone and noise), mean over the passage. */
  readonly frameCentroidHz: number | null;
  /** Shares of amplitude in partial 1, partials 2 to 4, partials 5 and up (Pollard & Jansson 1982, on amplitudes). */
  readonly tristimulus: readonly [number, number, number] | null;
  /** 10 lg(energy of odd partials / energy of even partials). */
  readonly oddToEvenDb: number | null;
  readonly perPassage: readonly PassageReading[];
  readonly findings: readonly Finding[];
}

/** Two strings near a small-integer ratio. */
export interface PairReading {
  readonly lower: string;
  readonly upper: string;
  /** Upper to lower, as `3:2`. */
  readonly ratio: string;
  /** `measured`: the two sounded together; `in-turn`: worked out from the pitch each had alone. */
  readonly basis: "measured" | "in-turn";
  /** Cents from pure, wide positive. */
  readonly centsFromPure: number;
  readonly interval95Cents: readonly [number, number] | null;
  /** Beats per second at the lowest common partial, were the two to sound at these pitches. */
  readonly beatsPerSecond: number;
}
