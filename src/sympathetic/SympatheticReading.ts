import type { Finding } from "../audio/Finding.js";
import type { RecordingEncoding } from "../audio/RecordingEncoding.js";
import type { StringRole, StringTarget } from "../instrument/Instrument.js";
import type { PluckReading } from "./PluckReading.js";

/** How a take of plucked strings is to be read. */
export interface SympatheticOptions {
  /** Strings to look for; null reads every pluck against the nearest note of equal temperament. */
  readonly targets: readonly StringTarget[] | null;
  /** Reference pitch of A4 in hertz, for notes without a target. */
  readonly a4Hz: number;
  /** Names in the order of plucking; decides between strings of one note only. */
  readonly order?: readonly string[];
  /** Called with the share that is done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** A string as its plucks show it. */
export interface SympatheticString {
  readonly name: string;
  /** Null where no instrument was named. */
  readonly role: StringRole | null;
  readonly note: string;
  readonly targetHz: number;
  readonly status: "measured" | "not-heard";
  /** Of the first partial, settled: without the glide of the pluck. Weighted mean of the plucks; null where not heard. */
  readonly frequencyHz: number | null;
  /** From the target, sharp positive. */
  readonly deviationCents: number | null;
  /** Of the deviation. */
  readonly interval95Cents: readonly [number, number] | null;
  /** B in f_n = n f0 sqrt(1 + B n^2), with its 95 % interval. */
  readonly inharmonicity: number | null;
  readonly inharmonicityInterval95: readonly [number, number] | null;
  /** By how much the second partial is wider than an octave. */
  readonly octaveStretchCents: number | null;
  /** Time in which the first partial falls by 60 dB, with its 95 % interval. */
  readonly decaySeconds: number | null;
  readonly decayInterval95Seconds: readonly [number, number] | null;
  /** A bowed note within this of the string's pitch makes it answer with half its power or more. */
  readonly answerCents: number | null;
  /** Mean power of its plucks just after them, over all channels. */
  readonly levelDb: number | null;
  /** Standard deviation from pluck to pluck; null for one pluck. */
  readonly spreadCents: number | null;
  readonly plucks: readonly PluckReading[];
  readonly findings: readonly SympatheticOwnFinding[];
}

/** A pluck that is none of the strings. */
export interface StrayPluck {
  readonly onsetSeconds: number;
  readonly frequencyHz: number;
  readonly note: string;
  readonly deviationCents: number;
}

/** What a take of plucked strings says. */
export interface SympatheticReading {
  readonly sampleRateHz: number;
  readonly channelCount: number;
  /** How its file holds it; not there for samples that come from no file. */
  readonly encoding?: RecordingEncoding | undefined;
  readonly durationSeconds: number;
  readonly strings: readonly SympatheticString[];
  readonly strays: readonly StrayPluck[];
  /** Pitch from pluck to pluck of one string, over all strings, as a standard deviation; null where none was plucked twice. */
  readonly pluckSpreadCents: number | null;
  readonly findings: readonly (Finding | SympatheticOwnFinding)[];
}

/** The plain-word codes of what a take of plucked strings can be found to have, besides those of the recording. */
export type SympatheticFindingCode =
  | "no-pluck"
  | "plucks-not-placed"
  | "held-sound"
  | "unread-begin"
  | "plucks-too-close"
  | "pluck-far-off"
  | "equal-plucks"
  | "plucks-differ"
  | "pluck-glides"
  | "string-beats"
  | "pluck-unsure";

/** Of plucked strings themselves. */
export interface SympatheticOwnFinding {
  readonly code: SympatheticFindingCode;
  readonly severity: Finding["severity"];
  readonly values: Readonly<Record<string, number | string>>;
}
