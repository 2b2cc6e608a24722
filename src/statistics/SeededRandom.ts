import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/**
 * Random numbers that are the same for the same seed on every machine (xoroshiro128+, from the pure-rand package).
 *
 * @example
 * ```ts
 * const random = new SeededRandom(7);
 * random.uniform(0, 10); // the same number every time
 * ```
 */
export class SeededRandom {
  private readonly generator;
  private spare: number | null = null;

  /** @param seed - any integer */
  constructor(seed: number) {
    this.generator = xoroshiro128plus(seed);
  }

  /** A number from `minimum` up to, not including, `maximum`. */
  uniform(minimum = 0, maximum = 1): number {
    return minimum + (maximum - minimum) * uniformFloat64(this.generator);
  }

  /** A number from the normal distribution with mean 0 and the given standard deviation (Box and Muller 1958). */
  normal(standardDeviation = 1): number {
    if (this.spare !== null) {
      const value = this.spare;
      this.spare = null;
      return value * standardDeviation;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniformFloat64(this.generator)));
    const angle = 2 * Math.PI * uniformFloat64(this.generator);
    this.spare = radius * Math.sin(angle);
    return radius * Math.cos(angle) * standardDeviation;
  }
}
