import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

export type NoiseColour = "white" | "pink" | "brown";

/** Seeded Gaussian noise of one colour with the given root mean square. */
export function noise(colour: NoiseColour, length: number, rms: number, seed: number): Float64Array {
  const uniform = uniformSource(seed);
  const values = Float64Array.from({ length }, () => {
    // Box & Muller 1958
    return Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  });
  if (colour === "brown") {
    // One pole at about 2 Hz keeps it from wandering off; above that -6 dB per octave.
    for (let i = 1; i < length; i++) values[i] += 0.9997 * values[i - 1];
  } else if (colour === "pink") {
    // Six one-pole filters whose sum falls by 3 dB per octave within a few tenths (widely used set, from memory).
    const poles = [0.99886, 0.99332, 0.969, 0.8665, 0.55, -0.7616];
    const gains = [0.0555179, 0.0750759, 0.153852, 0.3104856, 0.5329522, -0.016898];
    const state = [0, 0, 0, 0, 0, 0];
    for (let i = 0; i < length; i++) {
      const white = values[i];
      let sum = 0.5362 * white;
      for (let p = 0; p < 6; p++) {
        state[p] = poles[p] * state[p] + gains[p] * white;
        sum += state[p];
      }
      values[i] = sum;
    }
  }
  const scale = rms / Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / length);
  return values.map((value) => value * scale);
}

export function uniformSource(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  // The first values of neighbouring seeds are alike.
  for (let i = 0; i < 32; i++) uniformInt(generator, 0, 1);
  return () => uniformInt(generator, 0, 0x3fffffff) / 0x40000000;
}

export interface SyntheticNote {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly frequencyHz: number;
  /** Amplitude of the first partial; partial n has 1/n of it, up to 3 kHz. */
  readonly amplitude: number;
  /** Time in which the string falls by 60 dB after its end. */
  readonly decay60Seconds: number;
}

/** Adds a bowed string that rises within 50 ms and rings on after its end. */
export function addNote(samples: Float64Array, rateHz: number, note: SyntheticNote): void {
  const start = Math.round(note.startSeconds * rateHz);
  const stop = Math.min(samples.length, Math.round((note.endSeconds + 2 * note.decay60Seconds) * rateHz));
  const envelope = Float64Array.from({ length: stop - start }, (_, i) => {
    const over = (start + i) / rateHz - note.endSeconds;
    return Math.min(1, i / rateHz / 0.05) * (over > 0 ? 10 ** ((-3 * over) / note.decay60Seconds) : 1);
  });
  for (let n = 1; n * note.frequencyHz < 3000 && n <= 20; n++) {
    const turn = (2 * Math.PI * n * note.frequencyHz) / rateHz;
    // sin(a + t) = 2 cos(t) sin(a) - sin(a - t)
    let before = Math.sin(n * n - 2 * turn);
    let last = Math.sin(n * n - turn);
    for (let i = 0; i < envelope.length; i++) {
      const value = 2 * Math.cos(turn) * last - before;
      samples[start + i] += (note.amplitude / n) * envelope[i] * value;
      before = last;
      last = value;
    }
  }
}

/** Adds a steady sine. */
export function addSine(samples: Float64Array, rateHz: number, frequencyHz: number, amplitude: number): void {
  for (let i = 0; i < samples.length; i++) {
    samples[i] += amplitude * Math.sin((2 * Math.PI * frequencyHz * i) / rateHz + 1);
  }
}

/** Rounds to whole steps of a format with so many bits and cuts at its limits. */
export function quantised(samples: ArrayLike<number>, bits: number): Float32Array {
  const scale = 2 ** (bits - 1);
  return Float32Array.from(
    samples,
    (value) => Math.max(-scale, Math.min(scale - 1, Math.round(value * scale))) / scale,
  );
}

/**
 * Butterworth high-pass by the bilinear transform with the cutoff pre-warped, so that it is 3 dB down exactly there
 * (Oppenheim & Schafer, Discrete-Time Signal Processing; biquad form from memory).
 *
 * @param order - even
 */
export function highPassed(
  samples: Float64Array,
  rateHz: number,
  cutoffHz: number,
  order: number,
): Float64Array {
  let signal = samples;
  for (let section = 0; section < order / 2; section++) {
    const q = 1 / (2 * Math.cos(((2 * section + 1) * Math.PI) / (2 * order)));
    const w = (2 * Math.PI * cutoffHz) / rateHz;
    const alpha = Math.sin(w) / (2 * q);
    const a0 = 1 + alpha;
    const b = (1 + Math.cos(w)) / 2 / a0;
    const a1 = (-2 * Math.cos(w)) / a0;
    const a2 = (1 - alpha) / a0;
    const out = new Float64Array(signal.length);
    let x1 = 0;
    let x2 = 0;
    let y1 = 0;
    let y2 = 0;
    for (let i = 0; i < signal.length; i++) {
      const x = signal[i];
      const y = b * (x - 2 * x1 + x2) - a1 * y1 - a2 * y2;
      x2 = x1;
      x1 = x;
      y2 = y1;
      y1 = y;
      out[i] = y;
    }
    signal = out;
  }
  return signal;
}
