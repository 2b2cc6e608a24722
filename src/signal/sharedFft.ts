import { Fft } from "./Fft.js";

const transforms = new Map<number, Fft>();

/** The transform of a size, its tables made once: they take as long to make as a transform takes. */
export function sharedFft(size: number): Fft {
  let fft = transforms.get(size);
  if (fft === undefined) {
    fft = new Fft(size);
    transforms.set(size, fft);
  }
  return fft;
}
