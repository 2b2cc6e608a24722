import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";

const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;

/**
 * Sums of the squares of blocks of samples, by a kernel (`kernels/assembly/series.ts`).
 *
 * @param length - samples a block; those that don't fill one are left out, and a block of none is none
 * @param ofDifferences - of each sample less the one before it, the first block beginning with the second sample
 * @returns one sum a block, of amplitude squared; not a mean
 */
export function blockEnergies(samples: Float32Array, length: number, ofDifferences = false): Float64Array {
  const count = length < 1 ? 0 : Math.max(0, Math.floor((samples.length - (ofDifferences ? 1 : 0)) / length));
  const at = kernels().scratch(count * VALUE_BYTES + samples.byteLength, ScratchUser.blocks);
  const samplesAt = at + count * VALUE_BYTES;
  const { functions, f32, f64 } = kernels();
  f32.set(samples, samplesAt / samples.BYTES_PER_ELEMENT);
  if (ofDifferences) functions.blockDifferenceEnergies(samplesAt, length, count, at);
  else functions.blockEnergies(samplesAt, length, count, at);
  return f64.slice(at / VALUE_BYTES, at / VALUE_BYTES + count);
}
