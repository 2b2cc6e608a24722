import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

/** So many taps and outputs the kernel takes at a time. */
const AT_ONCE = 4;
const SAMPLE_BYTES = Float32Array.BYTES_PER_ELEMENT;

/**
 * One low-pass filter that keeps every `factor`-th sample of a stream, in pieces of any size.
 *
 * Output sample k stands at input sample k * factor.
 */
export class DecimationStage {
  /** The filter reaches over so many input samples to either side. */
  readonly half: number;
  private readonly factor: number;
  /** With zeros after the last, up to a multiple of {@link AT_ONCE}. */
  private readonly taps: Float32Array;
  /** Input that is still needed, the first of it being input sample `heldStart`. */
  private held: Float32Array;
  private heldStart: number;
  private nextOutput: number;

  /**
   * @param taps - symmetric
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
    this.half = (taps.length - 1) / 2;
    this.taps = new Float32Array(Math.ceil(taps.length / AT_ONCE) * AT_ONCE);
    this.taps.set(taps);
    this.nextOutput = firstOutput;
    this.heldStart = firstOutput * factor - this.half;
    this.held = new Float32Array(firstInput - this.heldStart).fill(restingLevel);
  }

  /** Takes the next samples in and gives the output samples that are complete. */
  push(samples: Float32Array): Float32Array {
    const { factor, half, held } = this;
    const length = held.length + samples.length;
    const end = this.heldStart + length;
    const count = Math.max(0, Math.floor((end - 1 - half) / factor) - this.nextOutput + 1);
    const filtered = this.filtered(samples, this.nextOutput * factor - half - this.heldStart, count);
    this.nextOutput += count;
    const used = Math.min(length, Math.max(0, this.nextOutput * factor - half - this.heldStart));
    this.held = filtered.input.slice(used, length);
    this.heldStart += used;
    return filtered.output.slice(0, count);
  }

  /**
   * Filters what is held and the samples after it, by a kernel: in 32-bit floats, whose rounding, 140 dB down, no
   * recording is as still as.
   *
   * @param first - place of the first input of the first output
   * @returns views that are good until the kernels are used again
   */
  private filtered(samples: Float32Array, first: number, count: number) {
    const { held, taps, factor } = this;
    const length = held.length + samples.length;
    const outputLength = Math.ceil(count / AT_ONCE) * AT_ONCE;
    // The last outputs, made to fill the last four, reach beyond the samples, and so do the taps that are zero.
    const inputLength = length + AT_ONCE * factor + taps.length;
    const { functions, f32, at } = room(inputLength + taps.length + outputLength);
    const tapsAt = at + inputLength;
    const outputAt = tapsAt + taps.length;
    f32.set(held, at);
    f32.set(samples, at + held.length);
    f32.fill(0, at + length, tapsAt);
    f32.set(taps, tapsAt);
    functions.decimate(
      SAMPLE_BYTES * (at + first),
      SAMPLE_BYTES * tapsAt,
      taps.length,
      factor,
      SAMPLE_BYTES * outputAt,
      outputLength,
    );
    return {
      input: f32.subarray(at, at + length),
      output: f32.subarray(outputAt, outputAt + count),
    };
  }
}

function room(length: number) {
  const at = kernels().scratch(SAMPLE_BYTES * length, ScratchUser.decimation) / SAMPLE_BYTES;
  const { functions, f32 } = kernels();
  return { functions, f32, at };
}
