import type { Finding } from "../audio/Finding.js";
import type { StringRole, StringTarget } from "../instrument/Instrument.js";

/** What is listened to, and for what. */
export interface LiveOptions {
  /** Sample rate in hertz, a whole number from 8,000 to 384,000. */
  readonly sampleRateHz: number;
  /** Channels in every block, 1 to 32. */
  readonly channelCount: number;
  /** The pitch every string should have; null shows each note heard against the nearest equal-tempered one. */
  readonly targets: readonly StringTarget[] | null;
  /** Reference pitch in hertz, 300 to 600, for nearest notes. */
  readonly a4Hz: number;
}

/**
 * `sounding`: it sounds now. `perhaps`: it sounded just now, and several strings sound that are not told apart yet.
 * `heard`: it was read earlier. `not-heard`: not so far.
 */
export type LiveStatus = "sounding" | "perhaps" | "heard" | "not-heard";

/**
 * Why there is no 95 % interval: its pitch moves (`moving`), it was heard for too short a time (`too-short`), its partials
 * all but coincide with another string's (`not-separable`; there is no pitch either), its movement could not be followed under
 * other strings (`not-followed`), or it was not heard (`not-heard`).
 */
export type LiveLack = "moving" | "too-short" | "not-separable" | "not-followed" | "not-heard";

/** What was last heard of one string. A value that can't be had is null, never 0. */
export interface LiveString {
  readonly name: string;
  readonly role: StringRole | null;
  readonly targetHz: number;
  readonly status: LiveStatus;
  /** Mean pitch over the last `windowSeconds` before it was last heard; with the swing of the wheel taken out where an interval is given. */
  readonly frequencyHz: number | null;
  /** Cents from the target, sharp positive. */
  readonly deviationCents: number | null;
  /** 95 % interval of the deviation for the pitch the string has under this cranking; null where `lack` says why. */
  readonly interval95Cents: readonly [number, number] | null;
  readonly lack: LiveLack | null;
  /** True while a peg is turned or the pitch runs away otherwise: `frequencyHz` is then that of the last half second or so. */
  readonly isMoving: boolean;
  /** How much sound the reading was made from. */
  readonly windowSeconds: number | null;
  /** Level of the partials relative to a full-scale sine, power mean of the channels. */
  readonly levelDb: number | null;
  /** Time since it was last heard; 0 while it sounds. */
  readonly secondsAgo: number | null;
  /** True where it was read under other strings. */
  readonly isTogether: boolean;
  readonly findings: readonly Finding[];
}

/** A pitch that is none of the strings'. */
export interface LiveStray {
  readonly frequencyHz: number;
  /** The nearest equal-tempered note, and how far off it is. */
  readonly note: string;
  readonly deviationCents: number;
}

/**
 * What sounds now: nothing with a pitch, one string, several that are told apart (`together`), several that are not, or
 * not yet (`together-unclear`), or a sound too young or too unclear to be read (`unclear`).
 */
export type LiveSound = "nothing" | "one" | "together" | "together-unclear" | "unclear";

/** What has been heard up to a moment. Every number follows from the samples alone, however they came in blocks. */
export interface LiveReading {
  /** Seconds of sound taken in up to this reading: the clock of everything here. */
  readonly seconds: number;
  readonly sound: LiveSound;
  /** In the order of the targets; without targets one for each note heard so far, rising. */
  readonly strings: readonly LiveString[];
  /** A pitch sounding now that is more than 300 cents from every string; null where there is none. */
  readonly stray: LiveStray | null;
  /** Largest sample of the last second against full scale; null in digital silence. */
  readonly peakDb: number | null;
  /** About the recording so far: `clipping`, `too-quiet`, `mains-hum`, `not-finite`; and `several-strings` where they are not told apart. */
  readonly findings: readonly Finding[];
}

/** Reads strings while they are recorded; see `liveReader`. */
export interface LiveReader {
  /**
   * Takes the next block in: one array a channel, all of one length, of any length from 0.
   *
   * @returns the readings that came due in it, in order of time: none for most short blocks
   * @throws AnalysisError `value-out-of-range` where the channels are not as many as promised, or not of one length
   */
  push(channels: readonly Float32Array[]): readonly LiveReading[];
  /** The last reading that came due; before the first one nothing has been heard. */
  reading(): LiveReading;
}
