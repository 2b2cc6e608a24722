import type { FineCourse } from "./fineCourse.js";

/** A stroke with the fine course about it, and what is known of its first knock so far. Times count from the stroke's own. */
export interface FineStroke {
  /** Where the stroke of the wheel was found to begin, and how near that is known. */
  readonly strokeSeconds: number;
  readonly withinSeconds: number;
  /** Where the buzz ends, and where that of the stroke before did. */
  readonly endSeconds: number;
  readonly endBeforeSeconds: number;
  readonly course: FineCourse;
  /** First knock that is loud enough: the middle of what is likely, and the earliest (2.5 %). */
  readonly knockSeconds: number;
  readonly earliestSeconds: number;
}

/** Two frames of a fine course: from the first to before the last. */
export type FineSpan = readonly [first: number, last: number];
