/** Where a decaying vibration stands: it goes as exp(-decay * t) cos(2 pi * frequencyHz * t + phase). */
export interface Pole {
  readonly frequencyHz: number;
  /** Per second; pi f / Q. Zero or a little below for a steady line. */
  readonly decay: number;
}
