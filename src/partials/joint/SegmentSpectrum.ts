import { nextPowerOfTwo } from "../../signal/nextPowerOfTwo.js";
import { Scratch } from "../../signal/Scratch.js";
import { sharedFft } from "../../signal/sharedFft.js";
import type { AnalysisSegment } from "../AnalysisSegment.js";
import type { FrameGrid } from "../FrameGrid.js";
import type { ComplexFrames } from "./ComplexFrames.js";

/** Frames come at this rate or up to twice as often: fast enough for the swing of a high partial. */
const LEAST_FRAME_RATE_HZ = 60;
/** Read beyond the ends, where there is something, so that the first and last frames are whole. */
const MARGIN_SECONDS = 0.1;
/** Each frame passes all within this distance of the partial, as a share of the frame rate, and nothing beyond half of it. */
const FLAT_SHARE = 0.36;
const scratch = { input: new Scratch(), output: new Scratch() };

/**
 * The spectrum of a whole passage, from which the frames of any partial are cut: the band around the partial is moved to
 * 0 Hz and transformed back at a low rate. That costs one small transform a partial, where demodulating the samples costs
 * a multiplication a sample and partial (16 times as long, measured on 8 s of four strings).
 *
 * The band is flat around the partial and ends in half a cosine, so a movement within the flat part leaves size and phase
 * as they are, and frames can be turned along a better course afterwards instead of being cut again.
 */
export class SegmentSpectrum {
  readonly grid: FrameGrid;
  /** A line this close to a partial is in its frames as it is. */
  readonly flatHz: number;
  private readonly spectrum: Float64Array;
  private readonly size: number;
  private readonly binHz: number;
  private readonly firstFrame: number;
  private readonly frameSize: number;

  constructor(segment: AnalysisSegment, startSeconds: number, endSeconds: number) {
    const { samples, sampleRateHz, firstSeconds } = segment;
    const hop = 2 ** Math.floor(Math.log2(sampleRateHz / LEAST_FRAME_RATE_HZ));
    const hopSeconds = hop / sampleRateHz;
    const start = Math.round((startSeconds - firstSeconds) * sampleRateHz);
    this.firstFrame = Math.ceil(MARGIN_SECONDS / hopSeconds);
    const from = start - this.firstFrame * hop;
    const to = Math.round((endSeconds - firstSeconds + MARGIN_SECONDS) * sampleRateHz);
    this.size = nextPowerOfTwo(Math.max(to - from, 16 * hop));
    this.frameSize = this.size / hop;
    this.binHz = sampleRateHz / this.size;
    const values = scratch.input.take(this.size);
    values.fill(0);
    for (let i = Math.max(0, -from); i < to - from && from + i < samples.length; i++) {
      values[i] = samples[from + i];
    }
    this.spectrum = new Float64Array(this.size + 2);
    sharedFft(this.size).real(this.spectrum, values);
    this.flatHz = FLAT_SHARE / hopSeconds;
    this.grid = {
      firstSeconds: firstSeconds + start / sampleRateHz,
      hopSeconds,
      count: Math.max(8, Math.floor((endSeconds - startSeconds) / hopSeconds) + 1),
    };
  }

  /** How much of a line `offsetHz` from a partial is left in its frames, 0 to 1. */
  response(offsetHz: number): number {
    const share = Math.abs(offsetHz) * this.grid.hopSeconds;
    if (share <= FLAT_SHARE) return 1;
    if (share >= 0.5) return 0;
    return 0.5 + 0.5 * Math.cos((Math.PI * (share - FLAT_SHARE)) / (0.5 - FLAT_SHARE));
  }

  /** Frames of the partial at a constant frequency; peak amplitudes. */
  partial(partialHz: number): ComplexFrames {
    const { spectrum, size, frameSize, binHz, firstFrame, grid } = this;
    const centre = Math.round(partialHz / binHz);
    const input = scratch.input.take(2 * frameSize);
    input.fill(0);
    // The inverse transform divides by its size, where the size of the whole spectrum is wanted; peak amplitudes are twice.
    const scale = (2 * frameSize) / size;
    for (let offset = -frameSize / 2 + 1; offset < frameSize / 2; offset++) {
      const bin = centre + offset;
      if (bin < 1 || bin >= size / 2) continue;
      const weight = scale * this.response(bin * binHz - partialHz);
      const place = offset < 0 ? offset + frameSize : offset;
      input[2 * place] = weight * spectrum[2 * bin];
      input[2 * place + 1] = weight * spectrum[2 * bin + 1];
    }
    const output = scratch.output.take(2 * frameSize);
    sharedFft(frameSize).inverse(output, input);
    const real = new Float64Array(grid.count);
    const imaginary = new Float64Array(grid.count);
    const restCycles = (partialHz - centre * binHz) * grid.hopSeconds;
    // The band was moved by whole bins; the rest is turned away here. A phase that stays the same says nothing.
    const stepReal = Math.cos(2 * Math.PI * restCycles);
    const stepImaginary = -Math.sin(2 * Math.PI * restCycles);
    let cosine = 1;
    let sine = 0;
    for (let m = 0; m < grid.count; m++) {
      const place = (firstFrame + m) % frameSize;
      real[m] = output[2 * place] * cosine - output[2 * place + 1] * sine;
      imaginary[m] = output[2 * place] * sine + output[2 * place + 1] * cosine;
      const next = cosine * stepReal - sine * stepImaginary;
      sine = cosine * stepImaginary + sine * stepReal;
      cosine = next;
    }
    return { real, imaginary };
  }
}
