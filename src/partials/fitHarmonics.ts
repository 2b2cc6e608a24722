import { AnalysisError } from "../errors.js";
import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { type AverageSpectrum, averageSpectrum } from "../signal/averageSpectrum.js";
import { ANALYSIS_TOP_HZ } from "../signal/Decimator.js";
import { lineThrough } from "../signal/lineThrough.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import type { AnalysisSegment } from "./AnalysisSegment.js";
import { demodulate, type PartialFrames } from "./demodulate.js";
import { type FrameGrid, frameGrid } from "./FrameGrid.js";
import type { HarmonicFit } from "./HarmonicFit.js";
import { isNearHum } from "./isNearHum.js";
import { meanSquare } from "./joint/meanSquare.js";
import { noiseBetweenPartials } from "./noiseBetweenPartials.js";
import { phaseCourse } from "./phaseCourse.js";
import { smoothCourse, smoothFrames } from "./smoothFrames.js";
import { steadyFrequency } from "./steadyFrequency.js";

const CENTS_PER_RATIO = 1200 / Math.LN2;
/** Length of the spectra from which the noise is read. */
const NOISE_WINDOW_SECONDS = 0.5;
/** The pitch counts as steady where its course strays no more than this many times what noise explains (variance). */
const STEADY_RATIO = 4;
const LOWEST_HZ = 30;
/** As many partials as the first look at the frequency uses. */
const SHARPENING_PARTIALS = 8;

/** A fit that ends further than this from its start followed another sound. */
const LARGEST_MOVE_CENTS = 45;

/** Sound needed on both sides of the passage so that its first and last frame are whole. */
export const FIT_MARGIN_SECONDS = 0.08;

/**
 * Fits one harmonic series to a passage: its mean frequency, the course of its pitch and the power of its partials.
 *
 * Every partial is demodulated along the course of the fundamental; the common phase of all of them gives a better
 * course, and so on. The mean frequency is the phase gone through over the time it took, which is exact however the
 * pitch moved. Where the pitch moved no more than noise explains, the maximum-likelihood frequency is taken instead,
 * since the mean of the phase ends is then needlessly uncertain. Partial powers are means over frames of |amplitude|^2
 * less the noise beside them, so that neither swing nor level changes smear them.
 *
 * @param segment - the passage and, where there is sound, {@link FIT_MARGIN_SECONDS} on both sides
 * @param startHz - within 20 cents of the truth, the octave right
 * @param humFrequenciesHz - lines of mains hum: partials beside them don't steer the pitch unless there are no others
 * @param spectrum - of the segment, from which the noise between the partials is read, where it is there already
 * @returns null where no partial stands out of the noise, or the fit runs away from its start by 45 cents or more
 * @throws AnalysisError `value-out-of-range` for a start beyond 30 to 3,000 Hz
 */
export function fitHarmonics(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  startHz: number,
  humFrequenciesHz: readonly number[] = [],
  spectrum: AverageSpectrum = averageSpectrum(
    segment.samples,
    segment.sampleRateHz,
    nextPowerOfTwo(NOISE_WINDOW_SECONDS * segment.sampleRateHz),
  ),
): HarmonicFit | null {
  if (!(startHz >= LOWEST_HZ && startHz <= ANALYSIS_TOP_HZ)) {
    throw new AnalysisError("value-out-of-range", {
      name: "startHz",
      given: startHz,
      allowedMinimum: LOWEST_HZ,
      allowedMaximum: ANALYSIS_TOP_HZ,
    });
  }
  const partialCount = Math.max(1, Math.floor(ANALYSIS_TOP_HZ / (startHz * 1.01)));
  const noise = Array.from({ length: partialCount }, (_, n) =>
    noiseBetweenPartials(spectrum, startHz, n + 1),
  );
  // A partial beside a hum line has no noise of its own to go by: it gets a level, but no say in the pitch.
  const trusted = noise.map((density, n) =>
    isNearHum((n + 1) * startHz, humFrequenciesHz) ? null : density,
  );
  const alone = sharpened(segment, startSeconds, endSeconds, startHz, trusted);
  const steering = alone === null ? noise : trusted;
  const baseHz = alone ?? sharpened(segment, startSeconds, endSeconds, startHz, noise);
  if (baseHz === null || !(baseHz >= LOWEST_HZ && baseHz <= ANALYSIS_TOP_HZ)) return null;

  const grid = frameGrid(startSeconds, endSeconds, baseHz);
  const constantFrames = demodulate(segment, grid, baseHz, null, partialCount);
  const rough = phaseCourse(constantFrames, signalToNoise(constantFrames, steering, frameBandwidthHz(grid)));
  if (rough === null) return null;
  // The rough course comes from frames that were not smoothed, and would carry all their noise along.
  const along = smoothCourse(rough.cycles, grid);
  const demodulated = demodulate(segment, grid, baseHz, along, partialCount);
  const frames = smoothFrames(demodulated, grid);
  const bandwidthHz = frames.noiseBandwidthHz;
  const ratios = signalToNoise(frames, noise, bandwidthHz);
  const fine = phaseCourse(frames, signalToNoise(frames, steering, bandwidthHz)) ?? rough;
  const weights = fine.weights;
  const course = fine === rough ? along : along.map((cycles, m) => cycles + fine.cycles[m]);
  const partials = frames.real.map((_, n) => {
    const noisePower = (noise[n] ?? 0) * bandwidthHz;
    return {
      number: n + 1,
      power: Math.max(0, meanPower(frames, n) - noisePower),
      signalToNoise: ratios[n],
      noiseDensity: noise[n],
    };
  });
  const duration = (grid.count - 1) * grid.hopSeconds;
  const information = partials.reduce(
    (sum, { number, power, noiseDensity }) =>
      noiseDensity !== null && noiseDensity > 0 && weights[number - 1] > 0
        ? sum + (number * number * power) / noiseDensity
        : sum,
    0,
  );
  const noiseErrorHz = information > 0 ? Math.sqrt(6 / information / duration ** 3) / (2 * Math.PI) : 0;
  const fallingHz = (course[grid.count - 1] - course[0]) / duration;
  const steady = strayOverNoise(course, ratios, weights) < STEADY_RATIO;
  const offsetHz = steady
    ? steadyFrequency(
        constantFrames,
        grid,
        noise.map((density, n) => (weights[n] > 0 ? density : null)),
        fallingHz,
      )
    : fallingHz;
  const frequencyHz = baseHz + offsetHz;
  // The partials ran after something else: no reading is better than a wrong one.
  if (!(Math.abs(CENTS_PER_RATIO * Math.log(frequencyHz / startHz)) < LARGEST_MOVE_CENTS)) return null;
  return {
    startSeconds,
    endSeconds,
    frequencyHz,
    steady,
    noiseErrorCents: (CENTS_PER_RATIO * noiseErrorHz) / frequencyHz,
    course: pitchIntegral(course, grid, offsetHz, frequencyHz),
    gain: commonGain(demodulated, weights),
    partials,
    followedCount: weights.reduce((count, weight) => count + (weight > 0 ? 1 : 0), 0),
    strayedPartials: [...new Set([...rough.strayed, ...fine.strayed])],
  };
}

/** Mean frequency to a fraction of a cent from the lowest partials: frames a whole number of periods long need it. */
function sharpened(
  segment: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  startHz: number,
  noise: readonly (number | null)[],
): number | null {
  const grid = frameGrid(startSeconds, endSeconds, startHz);
  const frames = demodulate(segment, grid, startHz, null, Math.min(SHARPENING_PARTIALS, noise.length));
  const found = phaseCourse(frames, signalToNoise(frames, noise, frameBandwidthHz(grid)));
  if (found === null) return null;
  return startHz + (found.cycles[grid.count - 1] - found.cycles[0]) / ((grid.count - 1) * grid.hopSeconds);
}

/** Equivalent noise bandwidth of one two-hop Hann frame. */
function frameBandwidthHz(grid: FrameGrid): number {
  return 0.75 / grid.hopSeconds;
}

/** Root of the power of all partials that are followed, frame by frame; not smoothed, which would lessen a quick swing. */
function commonGain({ real, imaginary }: PartialFrames, weights: Float64Array): Float64Array {
  const rows = new KernelRows(ScratchUser.frames, 3, real[0].length);
  rows.fill(2, 0);
  for (let n = 0; n < real.length; n++) {
    if (!(weights[n] > 0)) continue;
    rows.put(0, real[n]);
    rows.put(1, imaginary[n]);
    kernels().functions.addFramePowers(rows.place(0), rows.place(1), rows.length, rows.place(2));
  }
  const gain = rows.copy(2);
  const mean = gain.reduce((sum, power) => sum + power, 0) / gain.length;
  return gain.map((power) => (mean > 0 ? Math.sqrt(power / mean) : 1));
}

function meanPower(frames: PartialFrames, n: number): number {
  return meanSquare({ real: frames.real[n], imaginary: frames.imaginary[n] });
}

function signalToNoise(
  frames: PartialFrames,
  noise: readonly (number | null)[],
  bandwidthHz: number,
): (number | null)[] {
  return frames.real.map((_, n) => {
    const density = noise[n];
    if (density === null) return null;
    const noisePower = density * bandwidthHz;
    // A synthetic or gated tone may have no noise at all; 120 dB is as good as any.
    return Math.min(1e12, Math.max(0, meanPower(frames, n) - noisePower) / Math.max(noisePower, 1e-30));
  });
}

/** Variance of the course about a straight line, over what the noise of the partials explains. */
function strayOverNoise(
  course: Float64Array,
  ratios: readonly (number | null)[],
  weights: Float64Array,
): number {
  let expected = 0;
  for (let n = 0; n < weights.length; n++) {
    if (weights[n] > 0) expected += weights[n] ** 2 / (2 * (ratios[n] ?? 1) * (2 * Math.PI * (n + 1)) ** 2);
  }
  return lineThrough(course).restVariance / Math.max(expected, 1e-30);
}

function pitchIntegral(course: Float64Array, grid: FrameGrid, offsetHz: number, frequencyHz: number) {
  const centsPerCycle = CENTS_PER_RATIO / frequencyHz;
  return {
    hopSeconds: grid.hopSeconds,
    centSeconds: course.map(
      (cycles, m) => (cycles - course[0] - offsetHz * m * grid.hopSeconds) * centsPerCycle,
    ),
  };
}
