import type { Finding } from "../audio/Finding.js";
import type { LiveLack } from "./LiveReading.js";

/** What was read of one sound, before or after it is known which string it is. */
export interface HeardSound {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Null for a string that sounds but can't be told from another. */
  readonly frequencyHz: number | null;
  /** Cents from `frequencyHz`. */
  readonly interval95Cents: readonly [number, number] | null;
  readonly lack: LiveLack | null;
  readonly isMoving: boolean;
  readonly levelDb: number | null;
  readonly isTogether: boolean;
  readonly findings: readonly Finding[];
}
