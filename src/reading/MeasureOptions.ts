import type { StringTarget } from "../instrument/Instrument.js";

/** How a take is to be read. */
export interface MeasureOptions {
  /** The pitch every string should have; null reads each passage against the nearest equal-tempered note. */
  readonly targets: readonly StringTarget[] | null;
  /** Reference pitch in hertz, for nearest notes and for the reference pitch that the strings agree on. */
  readonly a4Hz: number;
  /** Names of equal strings in the order in which they were recorded. */
  readonly order?: readonly string[];
  /** Names of the strings that sound together throughout; without it the command finds out which sound. */
  readonly sounding?: readonly string[];
  /**
   * Name of the one string that can't be moved. The reference pitch is then its own, and the own error of every other
   * string is counted from it; where a take has no reading of it, from what the strings have in common.
   */
  readonly anchor?: string;
  /** Where the low register ends, in hertz: 177.8 (the upper edge of the 125 Hz octave band) where not given. */
  readonly lowEdgeHz?: number;
  /** Turns of the wheel a second, counted by eye to within 15 %; worked out from the sound where not given. */
  readonly turnsPerSecond?: number;
  /** Called now and then with the share done, 0 to 1. */
  readonly onProgress?: (doneShare: number) => void;
}
