/** How strong the sound is at each frequency and time, for a picture. */
export interface Spectrogram {
  /** From the first column's middle to the last one's. */
  readonly columnSeconds: number;
  readonly columnCount: number;
  /** Rows go up by equal steps of pitch, from the lowest to the highest. */
  readonly lowestHz: number;
  readonly highestHz: number;
  readonly rowCount: number;
  /** Column after column, each from the lowest row up: 0 for the floor, 255 for the strongest. */
  readonly levels: Uint8Array;
  /** Decibels that 0 stands below 255. */
  readonly rangeDb: number;
}
