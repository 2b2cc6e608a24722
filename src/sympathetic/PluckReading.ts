/** One pluck, read by itself. */
export interface PluckReading {
  /** The moment of the pluck. */
  readonly onsetSeconds: number;
  /** The stretch it was read in. */
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Mean frequency of the first partial over that stretch, weighted with its energy, without the glide. */
  readonly frequencyHz: number;
  /** Standard deviation of that, from the fit and from how far the partials keep to one law. */
  readonly deviationCents: number;
  /** B in f_n = n f0 sqrt(1 + B n^2); null where fewer than three partials tell. */
  readonly inharmonicity: number | null;
  readonly inharmonicityDeviation: number | null;
  /** Time in which the first partial falls by 60 dB, with its standard deviation. */
  readonly decaySeconds: number;
  readonly decayDeviationSeconds: number;
  /** How far all partials started sharp, 50 ms after the pluck, with its standard deviation. */
  readonly glideCents: number;
  readonly glideDeviationCents: number;
  /** Distance of the two polarisations of the first partial; null where one decaying sine explains it. */
  readonly splitHz: number | null;
  /** Partials that were fitted. */
  readonly partialCount: number;
  /** Power of all partials at the beginning of the stretch, a full-scale sine being 0 dB. */
  readonly levelDb: number;
}
