/**
 * One low-pass filter that keeps every `factor`-th sample of a stream, in pieces of any size.
 *
 * Output sample k stands at input sample k * factor.
 */
export class DecimationStage {
  /** The filter reaches over so many input samples to either side. */
  readonly half: number;
  private readonly factor: number;
  private readonly middleTap: number;
  /** Taps at distances 1, 1 + factor, ... from the middle, then those at 2, 2 + factor, ... up to factor - 1. */
  private readonly taps: readonly Float64Array[];
  /** Input that is still needed: the first `heldCount` values, the first of them being input sample `heldStart`. */
  private held: Float64Array;
  private heldCount: number;
  private heldStart: number;
  private nextOutput: number;

  /**
   * @param taps - symmetric, cut off at half the output rate: every `factor`-th one is 0, and is left out
   * @param firstOutput - number of the first output sample wanted: below 0 it shows the filter's way in
   * @param firstInput - number of the first input sample that will be pushed
   * @param restingLevel - what lies before that sample
   */
  constructor(
    taps: Float64Array,
    factor: number,
    firstOutput: number,
    firstInput: number,
    restingLevel: number,
  ) {
    this.factor = factor;
    const half = (taps.length - 1) / 2;
    this.half = half;
    this.middleTap = taps[half];
    this.taps = Array.from({ length: factor - 1 }, (_, first) =>
      taps.slice(half + 1).filter((_, j) => j % factor === first),
    );
    this.nextOutput = firstOutput;
    this.heldStart = firstOutput * factor - half;
    this.heldCount = firstInput - this.heldStart;
    this.held = new Float64Array(this.heldCount).fill(restingLevel);
  }

  /** Takes the next samples in and gives the output samples that are complete. */
  push(samples: Float32Array): Float32Array {
    const { factor, half } = this;
    this.append(samples);
    const end = this.heldStart + this.heldCount;
    const count = Math.max(0, Math.floor((end - 1 - half) / factor) - this.nextOutput + 1);
    const output = new Float32Array(count);
    this.filter(output, this.held, this.nextOutput * factor - this.heldStart);
    this.nextOutput += count;
    const used = Math.min(this.heldCount, Math.max(0, this.nextOutput * factor - half - this.heldStart));
    this.held.copyWithin(0, used, this.heldCount);
    this.heldCount -= used;
    this.heldStart += used;
    return output;
  }

  private append(samples: Float32Array): void {
    const count = this.heldCount + samples.length;
    if (count > this.held.length) {
      const longer = new Float64Array(count);
      longer.set(this.held.subarray(0, this.heldCount));
      this.held = longer;
    }
    this.held.set(samples, this.heldCount);
    this.heldCount = count;
  }

  /**
   * Four outputs at a time: none has to wait for another's sum, and of the eight values that a tap asks for six are those
   * that the tap before it has just used for the neighbours.
   */
  private filter(output: Float32Array, input: Float64Array, firstCentre: number): void {
    const { factor, middleTap } = this;
    let k = 0;
    let centre = firstCentre;
    for (; k + 4 <= output.length; k += 4, centre += 4 * factor) {
      let sum0 = middleTap * input[centre];
      let sum1 = middleTap * input[centre + factor];
      let sum2 = middleTap * input[centre + 2 * factor];
      let sum3 = middleTap * input[centre + 3 * factor];
      for (let first = 1; first < factor; first++) {
        const taps = this.taps[first - 1];
        let before = centre - first;
        let after = centre + first;
        let before1 = input[before + factor];
        let before2 = input[before + 2 * factor];
        let before3 = input[before + 3 * factor];
        let after0 = input[after];
        let after1 = input[after + factor];
        let after2 = input[after + 2 * factor];
        after += 3 * factor;
        for (let t = 0; t < taps.length; t++) {
          const tap = taps[t];
          const before0 = input[before];
          const after3 = input[after];
          sum0 += tap * (before0 + after0);
          sum1 += tap * (before1 + after1);
          sum2 += tap * (before2 + after2);
          sum3 += tap * (before3 + after3);
          before3 = before2;
          before2 = before1;
          before1 = before0;
          after0 = after1;
          after1 = after2;
          after2 = after3;
          before -= factor;
          after += factor;
        }
      }
      output[k] = sum0;
      output[k + 1] = sum1;
      output[k + 2] = sum2;
      output[k + 3] = sum3;
    }
    for (; k < output.length; k++, centre += factor) {
      let sum = middleTap * input[centre];
      for (let first = 1; first < factor; first++) {
        const taps = this.taps[first - 1];
        for (let t = 0; t < taps.length; t++) {
          const distance = first + t * factor;
          sum += taps[t] * (input[centre - distance] + input[centre + distance]);
        }
      }
      output[k] = sum;
    }
  }
}
