import { Fft } from "./Fft.js";

/**
 * The transform of a real sequence that is symmetric about its ends (type I cosine transform), by a real Fourier
 * transform of half its period (Cooley, Lewis & Welch 1970; from memory).
 */
export class CosineTransform {
  /** Values are given at 0 to `last`. */
  readonly last: number;
  private readonly fft: Fft;
  private readonly sine: Float64Array;
  private readonly cosine: Float64Array;
  private readonly folded: Float64Array;
  private readonly spectrum: Float64Array;

  /** @param last - number of the last value, half the period: a power of two, 2 or more */
  constructor(last: number) {
    this.last = last;
    this.fft = new Fft(last);
    this.sine = Float64Array.from({ length: last }, (_, k) => Math.sin((Math.PI * k) / last));
    this.cosine = Float64Array.from({ length: last }, (_, k) => Math.cos((Math.PI * k) / last));
    this.folded = new Float64Array(last);
    this.spectrum = new Float64Array(last + 2);
  }

  /**
   * Fills `out` with v(0) + (-1)^l v(last) + 2 sum of v(k) cos(pi k l / last) for l from 0 on, as far as it reaches.
   *
   * @param out - at most `last` + 1 long
   * @param values - `last` + 1 long
   */
  transform(out: Float64Array, values: Float64Array): void {
    const { last, sine, cosine, folded, spectrum } = this;
    let first = (values[0] - values[last]) / 2;
    folded[0] = (values[0] + values[last]) / 2;
    for (let k = 1; k < last; k++) {
      const value = values[k];
      const mirrored = values[last - k];
      folded[k] = 0.5 * (value + mirrored) - sine[k] * (value - mirrored);
      first += value * cosine[k];
    }
    this.fft.real(spectrum, folded);
    let odd = 2 * first;
    for (let l = 0; l < out.length; l += 2) {
      out[l] = 2 * spectrum[l];
      // The odd ones differ from the one before by the imaginary part: with exp(-j) its sign is turned.
      if (l > 0) odd -= 2 * spectrum[l + 1];
      if (l + 1 < out.length) out[l + 1] = odd;
    }
  }
}
