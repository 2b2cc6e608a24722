import type { MediaFormat } from "../src/index.js";
import type { JobKind, ReadingContext, TrackPart } from "../src/threads.js";
import type { SharedCounts } from "./sharedCounts.js";

/** Where a recording's bytes are. Threads share descriptors. */
export interface RecordingOrigin {
  readonly descriptor: number;
  readonly sizeBytes: number;
  /** Which file it is, and in which state. */
  readonly identity: string;
  /** What ffmpeg made of a file that is not WAV; null for WAV. */
  readonly decoded: { readonly format: MediaFormat; readonly hasFaults: boolean } | null;
}

/** A band that the other thread fills. */
export interface SharedBand {
  readonly channels: readonly Float32Array[];
  readonly counts: SharedCounts;
}

/** What the thread that works asks of the one that watches, besides watching. */
export type HandRequest =
  | {
      readonly kind: "prepare";
      readonly origin: RecordingOrigin;
      readonly context: Omit<ReadingContext, "recording">;
      /** The survey's band, which has methods and so can't be sent as it is. */
      readonly band: readonly Float32Array[] | null;
    }
  | {
      readonly kind: "jobs";
      readonly id: number;
      readonly job: JobKind;
      readonly calls: readonly unknown[];
      readonly counts: SharedCounts;
    };

/** What comes back. */
export type HandAnswer =
  /** Told before anything is asked: a recording that the command line seems to name is being read. */
  | { readonly kind: "ahead"; readonly identity: string; readonly band: SharedBand }
  /** Its survey; null where it could not be read. */
  | { readonly kind: "survey"; readonly survey: ReadingContext["survey"] | null }
  /** The rest of its band is being tracked from this frame on. */
  | { readonly kind: "tracking"; readonly firstFrame: number }
  | { readonly kind: "tracked"; readonly rest: TrackPart }
  /** A job of a request; where it failed, the asking thread does it again and meets the fault itself. */
  | {
      readonly kind: "job";
      readonly id: number;
      readonly index: number;
      readonly isFault: boolean;
      readonly result: unknown;
    };

/** Places in the counts of a band. */
export const bandCounts = {
  /** Samples of every channel that are there, or {@link FAILED}. */
  filled: 0,
  /** Not 0 once the survey was posted. */
  surveyed: 1,
  /** Frames that the thread that works has tracked, or does with what is there; {@link FAILED} where it has no use for the band. */
  frames: 2,
  /** Not 0 once the track of the rest was posted. */
  tracked: 3,
  size: 4,
} as const;

/** The band will not be filled any more, or not be used. */
export const FAILED = -1;

/** Places in the counts of jobs: answers that were posted, then for each job whether somebody has taken it. */
export const jobCounts = { answered: 0, firstTaken: 1 } as const;

/** Takes a job on; false where somebody else has. */
export function takeOn(counts: SharedCounts, index: number): boolean {
  return Atomics.exchange(counts, jobCounts.firstTaken + index, 1) === 0;
}
