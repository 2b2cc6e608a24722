import { Fft } from "../../src/signal/Fft.js";
import { nextPowerOfTwo } from "../../src/signal/nextPowerOfTwo.js";
import type { SeededRandom } from "../../src/statistics/SeededRandom.js";

/**
 * An invented room: the direct sound, some early reflections, and noise that falls by 60 dB in the reverberation time.
 *
 * @param roomDb - power of all that is not direct sound, relative to it
 */
export function roomResponse(
  reverberationSeconds: number,
  roomDb: number,
  sampleRateHz: number,
  random: SeededRandom,
): Float32Array {
  const response = new Float32Array(Math.round(reverberationSeconds * sampleRateHz));
  for (let i = Math.round(0.004 * sampleRateHz); i < response.length; i++) {
    response[i] = random.normal() * 10 ** ((-3 * i) / response.length);
  }
  for (let k = 0; k < 5; k++) {
    response[Math.round(random.uniform(0.004, 0.035) * sampleRateHz)] += random.normal(6);
  }
  const power = response.reduce((sum, value) => sum + value * value, 0);
  const scale = Math.sqrt(10 ** (roomDb / 10) / power);
  for (let i = 0; i < response.length; i++) response[i] *= scale;
  response[0] = 1;
  return response;
}

/** The samples through a response, as many as went in. */
export function convolved(samples: Float32Array, response: Float32Array): Float32Array {
  const size = nextPowerOfTwo(4 * response.length);
  const step = size - response.length;
  const fft = new Fft(size);
  const b = new Float64Array(2 * size);
  const input = new Float64Array(2 * size);
  for (let i = 0; i < response.length; i++) input[2 * i] = response[i];
  fft.forward(b, input);
  const result = new Float32Array(samples.length);
  const a = new Float64Array(2 * size);
  for (let first = 0; first < samples.length; first += step) {
    input.fill(0);
    for (let i = 0; i < step; i++) input[2 * i] = samples[first + i] ?? 0;
    fft.forward(a, input);
    for (let k = 0; k < size; k++) {
      const real = a[2 * k] * b[2 * k] - a[2 * k + 1] * b[2 * k + 1];
      a[2 * k + 1] = a[2 * k] * b[2 * k + 1] + a[2 * k + 1] * b[2 * k];
      a[2 * k] = real;
    }
    fft.inverse(input, a);
    for (let i = 0; i < size && first + i < result.length; i++) result[first + i] += input[2 * i];
  }
  return result;
}
