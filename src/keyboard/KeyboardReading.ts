import type { Finding } from "../audio/Finding.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingEncoding } from "../audio/RecordingEncoding.js";
import type { BodyCurve } from "../body/bodyCurve.js";
import type { Estimate } from "./shiftPattern.js";
import type { TangentMove } from "./tangentGeometry.js";

/** How a scale is to be read. */
export interface KeyboardOptions {
  /** Name and pitch of the string that the scale is played on. */
  readonly string: string;
  readonly openTargetHz: number;
  /** Cents that each key is to stand over the open string, key 0 (0 cents) first: see `keyLadder`. */
  readonly ladderCents: readonly number[];
  /** Vibrating length of the open string, nut to bridge; null where it is not known. */
  readonly lengthMm: number | null;
  /** Strings that may sound throughout, with their targets. */
  readonly drones?: readonly NamedPitch[];
  /** The other melody strings, which the same keys may stop. */
  readonly otherStrings?: readonly NamedPitch[];
  /** Called with the share that is done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** A string by its name and pitch. */
export interface NamedPitch {
  readonly name: string;
  readonly frequencyHz: number;
}

/** One key of a string. */
export interface KeyReading {
  /** From 1, the key next to the nut. */
  readonly key: number;
  /** Where it should be over the open string as it is. */
  readonly targetHz: number;
  /** Its pitch, the swing of the wheel taken out. */
  readonly frequencyHz: number;
  /** Over its target, sharp positive. */
  readonly deviationCents: number;
  /** Of the deviation: holds the unsteadiness of this key and, where it was heard, of the open string. */
  readonly interval95Cents: readonly [number, number];
  /** Where it was read, well within each of its notes. */
  readonly stretches: readonly TimeSpan[];
  /** Of the sounding string; null without a length. */
  readonly soundingLengthMm: number | null;
  /** What its tangent's edge is to move as nut and bridge stand; null without a length. */
  readonly tangentMove: TangentMove | null;
  /** The same once the shifts that are offered were made; equal to the other where there are none. */
  readonly tangentMoveAfterShift: TangentMove | null;
  /** What the shifts leave of the deviation. */
  readonly leftCents: number;
  readonly unsteadinessCents: number;
  readonly harmonicToNoiseDb: number | null;
  readonly isHarsh: boolean;
  readonly isUnsteady: boolean;
}

/** What all keys have in common, and what would take it away. */
export interface KeyboardPattern {
  readonly constantCents: Estimate | null;
  readonly bridgeCents: Estimate | null;
  /** Positive towards the bridge; null where not shown, or without a length. */
  readonly nutShiftMm: Estimate | null;
  /** Positive away from the nut. */
  readonly bridgeShiftMm: Estimate | null;
  readonly spreadCents: number;
  readonly leftCents: number;
}

/** What a scale on one string says of its keys. */
export interface KeyboardReading {
  readonly string: string;
  readonly openTargetHz: number;
  /** What the keys are counted from. */
  readonly openHz: number;
  /** `heard`: the open string was played; `target`: it was not, and its target stands in for it. */
  readonly openBasis: "heard" | "target";
  readonly lengthMm: number | null;
  readonly keys: readonly KeyReading[];
  /** Keys up to the highest one played, and the rest of the ladder, that were not heard. */
  readonly missedKeys: readonly number[];
  readonly pattern: KeyboardPattern;
  /** Peak swing of the pitch with the wheel, half of peak to peak; null where none stands out. */
  readonly swingCents: number | null;
  readonly swingRateHz: number | null;
  /** The drones that were taken out. */
  readonly drones: readonly NamedPitch[];
  /** The body as these keys show it; null where drones were taken out, or no note was heard. */
  readonly body: BodyCurve | null;
  /** How its file holds it; not there for samples that come from no file. */
  readonly encoding?: RecordingEncoding | undefined;
  readonly findings: readonly KeyboardFinding[];
}

/** The plain-word codes of what a scale can be found to have, besides those of the recording. */
export type KeyboardFindingCode =
  | "no-key"
  | "few-keys"
  | "open-not-played"
  | "open-off-target"
  | "no-length"
  | "keys-missed"
  | "notes-not-placed"
  | "keys-beyond-file"
  | "played-too-fast"
  | "likely-string"
  | "large-move"
  | "harsh-keys"
  | "unsteady-keys"
  | "other-string"
  | "something-beats"
  | "unnamed-sound"
  | "drones-taken-out";

/** Something to tell about a scale, as data: of the recording, or of the keys. */
export type KeyboardFinding = Finding | KeyboardOwnFinding;

/** Of the keyboard itself. */
export interface KeyboardOwnFinding {
  readonly code: KeyboardFindingCode;
  readonly severity: Finding["severity"];
  readonly values: Readonly<Record<string, number | string>>;
}
