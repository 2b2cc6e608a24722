/** A microphone never gives so many frames of exactly nothing in the midst of sound: they were lost on the way. */
const LEAST_FRAMES = 96;
/** Longer is a pause: a switch, or a program that lets nothing through while it is quiet. */
const MOST_SECONDS = 0.5;
/** Sound before it: 60 dB below full scale. */
const SOUND = 1e-3;

/** Counts places at which sound is missing in what a browser handed out. */
export class GapWatch {
  /** Gaps so far. */
  count = 0;
  readonly #mostFrames: number;
  #zeros = 0;
  #before = 0;

  constructor(sampleRateHz: number) {
    this.#mostFrames = MOST_SECONDS * sampleRateHz;
  }

  /** Takes the next samples of one channel in. */
  push(samples: Float32Array): void {
    for (const value of samples) {
      if (value === 0) {
        this.#zeros++;
        continue;
      }
      const isGap = this.#zeros >= LEAST_FRAMES && this.#zeros <= this.#mostFrames;
      if (isGap && this.#before > SOUND) this.count++;
      if (this.#zeros > 0) this.#before = 0;
      this.#zeros = 0;
      // Falls by half in some 700 frames, so that what sounded long before plays no part.
      this.#before = Math.max(Math.abs(value), 0.999 * this.#before);
    }
  }
}
