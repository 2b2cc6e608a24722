import type { StrokeReading } from "../../src/trompette/TrompetteReading.js";

export interface MatchedStrokes {
  /** Reading less truth, seconds, with what the reading says of it. */
  readonly errors: readonly {
    readonly seconds: number;
    readonly stroke: StrokeReading;
    readonly index: number;
  }[];
  /** Indices of true strokes that were not found. */
  readonly missed: readonly number[];
  /** Strokes that were read where there is none. */
  readonly added: number;
}

/** A reading is that of a stroke within this of it. */
const NEAR_SECONDS = 0.04;

/** Pairs readings with true onsets, nearest first. */
export function matchStrokes(truth: readonly number[], read: readonly StrokeReading[]): MatchedStrokes {
  const pairs = truth
    .flatMap((onset, index) =>
      read.map((stroke) => ({ index, stroke, seconds: stroke.onsetSeconds - onset })),
    )
    .filter(({ seconds }) => Math.abs(seconds) < NEAR_SECONDS)
    .sort((a, b) => Math.abs(a.seconds) - Math.abs(b.seconds));
  const errors: { seconds: number; stroke: StrokeReading; index: number }[] = [];
  for (const pair of pairs) {
    if (errors.some(({ index, stroke }) => index === pair.index || stroke === pair.stroke)) continue;
    errors.push(pair);
  }
  const missed = truth.flatMap((_, i) => (errors.some(({ index }) => index === i) ? [] : [i]));
  return { errors, missed, added: read.length - errors.length };
}
