import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import type { Blocks } from "./robustAmplitude.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;
/** So many samples of all partials are made at a time: a few kilobytes stay in the processor's cache. */
const PIECE_SAMPLES = 512;

/**
 * The phasors of a drone's fundamental, of whose powers its partials are made; by kernels
 * (`kernels/assembly/turning.ts`), in a tenth of the time that it took partial after partial.
 */
export class DronePhasors {
  /** Phase of the fundamental at each sample. */
  readonly cycles: Float64Array;
  private readonly real: Float64Array;
  private readonly imaginary: Float64Array;

  constructor(cycles: Float64Array) {
    this.cycles = cycles;
    this.real = new Float64Array(cycles.length);
    this.imaginary = new Float64Array(cycles.length);
    for (let i = 0; i < cycles.length; i++) {
      const angle = 2 * Math.PI * (cycles[i] - Math.floor(cycles[i]));
      this.real[i] = Math.cos(angle);
      this.imaginary[i] = Math.sin(angle);
    }
  }

  /** Mean amplitude of each partial, along its phase, in each block; peak amplitudes. */
  blockAmplitudes(
    samples: Float64Array,
    blockSamples: number,
    blocks: number,
    partialCount: number,
  ): Blocks[] {
    const used = blocks * blockSamples;
    const cells = partialCount * blocks;
    const at = this.room(3 * used + 2 * blockSamples + 2 * cells);
    const stepReal = at + used;
    const stepImaginary = stepReal + used;
    const work = stepImaginary + used;
    const real = work + 2 * blockSamples;
    const imaginary = real + cells;
    const { functions, f64 } = kernels();
    // A stretch shorter than its blocks is followed by silence.
    f64.fill(0, at, work);
    f64.set(samples.subarray(0, used), at);
    f64.set(this.real.subarray(0, used), stepReal);
    f64.set(this.imaginary.subarray(0, used), stepImaginary);
    const [a, b, c, d, e, f] = [at, stepReal, stepImaginary, work, real, imaginary].map(
      (place) => place * VALUE_BYTES,
    );
    functions.turnedSums(a, b, c, blockSamples, blocks, partialCount, d, e, f);
    const scale = 2 / blockSamples;
    return Array.from({ length: partialCount }, (_, n) => {
      const row = (first: number) => f64.slice(first + n * blocks, first + (n + 1) * blocks);
      return {
        real: row(real).map((value) => scale * value),
        // Turned back by the phase, where the kernel turns on.
        imaginary: row(imaginary).map((value) => -scale * value),
      };
    });
  }

  /** The sum of all partials, each with the amplitudes it has at centres `centreSamples` apart, straight lines between. */
  sound(parts: readonly Blocks[], centreSamples: number): Float64Array {
    const count = this.cycles.length;
    const centres = parts[0]?.real.length ?? 0;
    const cells = parts.length * centres;
    const at = this.room(3 * count + 2 * cells + 2 * PIECE_SAMPLES);
    const stepReal = at + count;
    const stepImaginary = stepReal + count;
    const real = stepImaginary + count;
    const imaginary = real + cells;
    const work = imaginary + cells;
    const { functions, f64 } = kernels();
    f64.fill(0, at, stepReal);
    f64.set(this.real, stepReal);
    f64.set(this.imaginary, stepImaginary);
    for (const [n, part] of parts.entries()) {
      f64.set(part.real, real + n * centres);
      f64.set(part.imaginary, imaginary + n * centres);
    }
    const [a, b, c, d, e, f] = [at, stepReal, stepImaginary, real, imaginary, work].map(
      (place) => place * VALUE_BYTES,
    );
    functions.addPartials(a, b, c, count, centreSamples, centres, d, e, parts.length, PIECE_SAMPLES, f);
    return f64.slice(at, at + count);
  }

  /** Room for so many values; where it begins, counted in values. */
  private room(length: number): number {
    return kernels().scratch(length * VALUE_BYTES, ScratchUser.drones) / VALUE_BYTES;
  }
}
