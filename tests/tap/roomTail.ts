import { Fft } from "../../src/signal/Fft.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";

/** What a room adds. */
export interface RoomTail {
  /** Energy of the added impulse response against that of the direct sound. */
  readonly energyDb: number;
  /** Time in which it falls by 60 dB. */
  readonly t60Seconds: number;
  readonly seed: number;
}

/** A room as noise that dies away: adds to a sound its convolution with that noise. */
export function roomTail(sampleRateHz: number, { energyDb, t60Seconds, seed }: RoomTail) {
  return (dry: Float64Array): Float64Array => {
    const random = new SeededRandom(seed);
    const length = Math.round(t60Seconds * sampleRateHz);
    const tail = Float64Array.from({ length }, (_, i) => random.normal() * 10 ** ((-3 * i) / length));
    const energy = tail.reduce((sum, value) => sum + value * value, 0);
    const gain = 10 ** (energyDb / 20) / Math.sqrt(energy);
    const fft = new Fft(2 ** Math.ceil(Math.log2(dry.length + length)));
    const spectrumOf = (values: Float64Array, scale: number) => {
      const data = new Float64Array(2 * fft.size);
      for (let i = 0; i < values.length; i++) data[2 * i] = scale * values[i];
      const out = new Float64Array(2 * fft.size);
      fft.forward(out, data);
      return out;
    };
    const a = spectrumOf(dry, 1);
    const b = spectrumOf(tail, gain);
    const product = a.map((value, i) =>
      i % 2 === 0 ? value * b[i] - a[i + 1] * b[i + 1] : a[i - 1] * b[i] + value * b[i - 1],
    );
    fft.inverse(a, product);
    return dry.map((value, i) => value + a[2 * i]);
  };
}
