import type { ComplexFrames } from "./ComplexFrames.js";
import type { FrameMemory } from "./FrameMemory.js";
import type { SegmentSpectrum } from "./SegmentSpectrum.js";

/** Frames of the partials of a series at a constant frequency, each cut from the spectrum when it is first asked for. */
export class ConstantFrames {
  readonly baseHz: number;
  private readonly spectrum: SegmentSpectrum;
  private readonly cut: (ComplexFrames | undefined)[] = [];

  /** Where all frames of the passage are kept. */
  get memory(): FrameMemory {
    return this.spectrum.memory;
  }

  constructor(spectrum: SegmentSpectrum, baseHz: number) {
    this.spectrum = spectrum;
    this.baseHz = baseHz;
  }

  /** @param number - partial number, from 1 */
  partial(number: number): ComplexFrames {
    const known = this.cut[number];
    if (known !== undefined) return known;
    const frames = this.spectrum.partial(number * this.baseHz);
    this.cut[number] = frames;
    return frames;
  }
}
