import type { Finding } from "../audio/Finding.js";
import type { RecordingEncoding } from "../audio/RecordingEncoding.js";
import type { BodyCurve } from "../body/bodyCurve.js";
import type { PartialEnergy } from "../body/lowRegister.js";
import type { StringReach } from "../body/reachOfString.js";
import type { PairReading, StringReading } from "../strings/StringReading.js";
import type { WheelReading } from "../wheel/WheelReading.js";

/** A steady stretch of the take and the strings that sound in it. */
export interface PassageSummary {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly strings: readonly string[];
}

/** The pitch that the instrument stands at: what all strings agree on, or that of the anchor. */
export interface ReferencePitch {
  readonly a4Hz: number;
  readonly offsetCents: number;
  readonly interval95Cents: readonly [number, number] | null;
  /** The string it was taken from; null where it is what the strings have in common. */
  readonly anchor: string | null;
}

/**
 * A string that sounded alone, or a set of strings that sounded together, over all its passages. What strings that share
 * partials have of each can't be told; what they have together can.
 */
export interface SoundReading {
  /** In the order of the instrument. */
  readonly strings: readonly string[];
  readonly durationSeconds: number;
  /** Mean power of every partial, 1 for a full-scale sine, each passage counting with its length. */
  readonly partials: readonly PartialEnergy[];
}

/** Level of one band relative to the sum of all; null where no partial falls in it. */
export interface BandLevel {
  /** Exact midband frequency in hertz (IEC 61260-1, base ten). */
  readonly midbandHz: number;
  readonly levelDb: number | null;
}

/**
 * The low register of the whole take; each string, or set of strings that sounded together, counts with its mean power,
 * not with how long it was played.
 */
export interface TakeLowRegister {
  readonly lowRegisterDb: number | null;
  readonly octaveBandsDb: Readonly<Record<string, number | null>>;
  readonly thirdOctaveDb: readonly BandLevel[];
  readonly centroidHz: number | null;
}

/** How a string whose fundamental lies in the low register arrives. */
export interface LowString {
  readonly name: string;
  /** What it brings below and above the edge of the low register, re full-scale sine; null with shared partials. */
  readonly lowLevelDb: number | null;
  readonly restLevelDb: number | null;
  /** How far its first partials lie under what an even body would give, and which carry its pitch. */
  readonly reach: StringReach;
  /**
   * The same of its fundamental as surely as can be had: from the body curve of all strings where there is one, else from the
   * string alone; null where neither says.
   */
  readonly fundamental: {
    readonly belowEvenDb: number;
    readonly interval95Db: readonly [number, number];
  } | null;
}

/** What the body, with room and microphone, makes of the strings. */
export interface BodyReading {
  readonly curve: BodyCurve;
  /** Of one take; empty where several are taken together. */
  readonly strings: readonly LowString[];
}

/** Everything one recording says. */
export interface TakeReading {
  readonly sampleRateHz: number;
  readonly channelCount: number;
  /** How its file holds it; not there for samples that come from no file. */
  readonly encoding?: RecordingEncoding | undefined;
  readonly durationSeconds: number;
  readonly passages: readonly PassageSummary[];
  readonly strings: readonly StringReading[];
  readonly pairs: readonly PairReading[];
  readonly sounds: readonly SoundReading[];
  readonly referencePitch: ReferencePitch | null;
  /** What keeps time with the wheel; its values are null where nothing is shown. */
  readonly wheel: WheelReading;
  readonly lowRegister: TakeLowRegister | null;
  readonly body: BodyReading | null;
  readonly findings: readonly Finding[];
}
