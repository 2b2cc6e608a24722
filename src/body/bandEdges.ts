/** The octave ratio of IEC 61260-1:2014, base ten. */
const OCTAVE_RATIO = 10 ** 0.3;

/** One band of a fractional-octave filter bank, as ideal edges. */
export interface Band {
  /** Nominal midband in hertz, as it is printed. */
  readonly nominalHz: number;
  /** Exact midband, 1000 * 10^(0.3 x / bandsPerOctave). */
  readonly midbandHz: number;
  readonly lowerHz: number;
  readonly upperHz: number;
}

function band(nominalHz: number, index: number, bandsPerOctave: number): Band {
  const midbandHz = 1000 * OCTAVE_RATIO ** (index / bandsPerOctave);
  const half = OCTAVE_RATIO ** (1 / (2 * bandsPerOctave));
  return { nominalHz, midbandHz, lowerHz: midbandHz / half, upperHz: midbandHz * half };
}

/** Octave bands 63 Hz to 2 kHz by IEC 61260-1:2014; together they reach from 44.7 to 2818.4 Hz. */
export const octaveBands: readonly Band[] = [63, 125, 250, 500, 1000, 2000].map((hz, i) =>
  band(hz, i - 4, 1),
);

/** Third-octave bands 50 Hz to 2.5 kHz by IEC 61260-1:2014. */
export const thirdOctaveBands: readonly Band[] = [
  50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500,
].map((hz, i) => band(hz, i - 13, 3));

/** Lower edge of all low-register measures: that of the 63 Hz octave band, 44.7 Hz. */
export const LOWEST_EDGE_HZ = octaveBands[0].lowerHz;
/** Where the low register ends: the upper edge of the 125 Hz octave band, 177.8 Hz. */
export const LOW_REGISTER_EDGE_HZ = octaveBands[1].upperHz;
/** Upper edge of all low-register measures: that of the 2 kHz octave band, 2818.4 Hz. */
export const HIGHEST_EDGE_HZ = octaveBands[5].upperHz;
