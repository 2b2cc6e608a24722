/** Columns of a fit: a slow trend, and the waves that keep time with the turn. */
export interface SwingColumns {
  readonly trend: readonly Float64Array[];
  /** Cosine and sine of each harmonic in turn. */
  readonly waves: readonly Float64Array[];
}

export function swingColumns(phase: Float64Array, harmonics: readonly number[]): SwingColumns {
  return {
    trend: trendColumns(phase.length),
    waves: harmonics.flatMap((harmonic) => [
      phase.map((angle) => Math.cos(harmonic * angle)),
      phase.map((angle) => Math.sin(harmonic * angle)),
    ]),
  };
}

/** Constant, slope and bend, each about 1 in size. */
export function trendColumns(count: number): Float64Array[] {
  const place = Float64Array.from({ length: count }, (_, m) => (2 * m + 1) / count - 1);
  return [new Float64Array(count).fill(1), place, place.map((value) => 1.5 * value * value - 0.5)];
}
