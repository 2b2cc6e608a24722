import { fourierTables } from "../../kernels/fourierTables.js";
import { kernels } from "../../kernels/kernels.js";
import { ScratchUser } from "../../kernels/ScratchUser.js";
import { nextPowerOfTwo } from "../../signal/nextPowerOfTwo.js";
import { Scratch } from "../../signal/Scratch.js";
import { sharedFft } from "../../signal/sharedFft.js";
import type { AnalysisSegment } from "../AnalysisSegment.js";
import type { FrameGrid } from "../FrameGrid.js";
import type { ComplexFrames } from "./ComplexFrames.js";
import { FrameMemory } from "./FrameMemory.js";

/** Frames come at this rate or up to twice as often: fast enough for the swing of a high partial. */
const LEAST_FRAME_RATE_HZ = 60;
/** Read beyond the ends, where there is something, so that the first and last frames are whole. */
const MARGIN_SECONDS = 0.1;
/** Each frame passes all within this distance of the partial, as a share of the frame rate, and nothing beyond half of it. */
const FLAT_SHARE = 0.36;
const VALUE_BYTES = Float64Array.BYTES_PER_ELEMENT;
const scratch = new Scratch();

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
  /** Where its frames are kept, and those that are turned from them. */
  readonly memory = new FrameMemory();
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
    const values = scratch.take(this.size);
    values.fill(0);
    const within = samples.subarray(Math.max(0, from), Math.max(0, to));
    if (within.length > 0) values.set(within, Math.max(0, -from));
    this.spectrum = this.memory.take(this.size + 2);
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
    const { size, frameSize, binHz, firstFrame, grid } = this;
    const centre = Math.round(partialHz / binHz);
    const restHz = partialHz - centre * binHz;
    // The band is moved by whole bins; the rest is turned away. A phase that stays the same says nothing.
    const angle = -2 * Math.PI * restHz * grid.hopSeconds;
    const bytes = 2 * frameSize * VALUE_BYTES;
    const band = kernels().scratch(3 * bytes + 2 * grid.count * VALUE_BYTES, ScratchUser.band);
    const real = band + 3 * bytes;
    const imaginary = real + grid.count * VALUE_BYTES;
    this.copyBand(centre - frameSize / 2 + 1, frameSize - 1, band / VALUE_BYTES);
    const { factors } = fourierTables(frameSize);
    const { functions, f64 } = kernels();
    // The inverse transform divides by its size, where the size of the whole spectrum is wanted; peak amplitudes are twice.
    const scale = (2 * frameSize) / size;
    // biome-ignore format: arguments of a kernel
    functions.cutBand(band, band + bytes, band + 2 * bytes, factors, frameSize, scale, binHz, restHz, this.flatHz, 0.5 / grid.hopSeconds, Math.cos(angle), Math.sin(angle), firstFrame, grid.count, real, imaginary);
    const first = real / VALUE_BYTES;
    const kept = this.memory.keep(f64.subarray(first, first + 2 * grid.count));
    return { real: kept.subarray(0, grid.count), imaginary: kept.subarray(grid.count) };
  }

  /** Copies bins into the kernels' memory; those that the spectrum doesn't have, and that of 0 Hz, are 0. */
  private copyBand(firstBin: number, count: number, to: number): void {
    const { f64 } = kernels();
    const from = Math.max(1, firstBin);
    const end = Math.min(this.size / 2, firstBin + count);
    if (from > firstBin || end < firstBin + count) f64.fill(0, to, to + 2 * count);
    if (end > from) f64.set(this.spectrum.subarray(2 * from, 2 * end), to + 2 * (from - firstBin));
  }
}
