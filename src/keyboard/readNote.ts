import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { demodulate, type PartialFrames } from "../partials/demodulate.js";
import { FIT_MARGIN_SECONDS, fitHarmonics } from "../partials/fitHarmonics.js";
import type { HarmonicFit, PitchIntegral } from "../partials/HarmonicFit.js";
import { noiseBetweenPartials } from "../partials/noiseBetweenPartials.js";
import { type UnexplainedLine, unexplainedLine } from "../partials/unexplainedLine.js";
import { averageSpectrum } from "../signal/averageSpectrum.js";
import { median } from "../signal/median.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import type { NoteSpan } from "./cutNotes.js";

/** One note as it was read: the stretch well within it. */
export interface NoteReading {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Mean over the stretch, the swing of the wheel still in it. */
  readonly frequencyHz: number;
  readonly course: PitchIntegral;
  readonly noiseErrorCents: number;
  readonly harmonicToNoiseDb: number | null;
  /** Power of each partial (1 is a full-scale sine) and its ratio to the noise of a frame. */
  readonly partials: readonly {
    readonly number: number;
    readonly power: number;
    readonly signalToNoise: number | null;
  }[];
  /** The strongest line beside its partials, against all of them together. */
  readonly otherLine: UnexplainedLine | null;
  /** Of the power at its partials above the first, the share that keeps strength and phase: low where something beats. */
  readonly holdsTogether: number | null;
}

/** The tangent's landing and leaving, and what the tracker's frames smear them by, are left out. */
const TRIM_SECONDS = 0.07;
const LEAST_SECONDS = 0.1;
const SPECTRUM_SECONDS = 0.25;
/** Partials that are asked whether they hold together, where they stand clear of the noise. */
const HIGHEST_HELD = 8;
const LEAST_RATIO = 100;
const TYPICAL_UNSTEADINESS_CENTS = 3;

/**
 * Reads one note: the harmonic fit over the stretch well within it.
 *
 * @param openHz - of the string, which the span's cents are counted from
 * @returns null where it is too short or no partial can be followed
 */
export function readNote(segment: AnalysisSegment, span: NoteSpan, openHz: number): NoteReading | null {
  const startSeconds = span.startSeconds + TRIM_SECONDS;
  const endSeconds = span.endSeconds - TRIM_SECONDS;
  if (endSeconds - startSeconds < LEAST_SECONDS) return null;
  const { samples, sampleRateHz, firstSeconds } = segment;
  const at = (seconds: number) => Math.round((seconds - firstSeconds) * sampleRateHz);
  const spectrum = averageSpectrum(
    samples.subarray(Math.max(0, at(startSeconds)), at(endSeconds)),
    sampleRateHz,
    nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz),
  );
  const first = Math.max(0, at(startSeconds - FIT_MARGIN_SECONDS));
  const around = {
    samples: samples.subarray(first, at(endSeconds + FIT_MARGIN_SECONDS)),
    sampleRateHz,
    firstSeconds: firstSeconds + first / sampleRateHz,
  };
  const startHz = openHz * 2 ** (span.centsOverOpen / 1200);
  const fit = fitHarmonics(around, startSeconds, endSeconds, startHz, [], spectrum);
  if (fit === null) return null;
  const power = fit.partials.reduce((sum, one) => sum + one.power, 0);
  const noise = fit.partials.reduce(
    (sum, { number }) =>
      sum + (noiseBetweenPartials(spectrum, fit.frequencyHz, number) ?? 0) * fit.frequencyHz,
    0,
  );
  return {
    startSeconds,
    endSeconds,
    frequencyHz: fit.frequencyHz,
    course: fit.course,
    noiseErrorCents: fit.noiseErrorCents,
    harmonicToNoiseDb: power > 0 && noise > 0 ? 10 * Math.log10(power / noise) : null,
    partials: fit.partials,
    otherLine: unexplainedLine(spectrum, [fit.frequencyHz], power, TYPICAL_UNSTEADINESS_CENTS),
    holdsTogether: holdsTogether(around, fit),
  };
}

function holdsTogether(segment: AnalysisSegment, fit: HarmonicFit): number | null {
  const { centSeconds, hopSeconds } = fit.course;
  const grid = { firstSeconds: fit.startSeconds, hopSeconds, count: centSeconds.length };
  const cycles = centSeconds.map((value) => (value * fit.frequencyHz * Math.LN2) / 1200);
  const count = Math.min(HIGHEST_HELD, fit.partials.length);
  const frames = demodulate(segment, grid, fit.frequencyHz, cycles, count);
  const gain = commonGain(frames, fit);
  const shares: number[] = [];
  for (let n = 1; n < count; n++) {
    if ((fit.partials[n].signalToNoise ?? 0) < LEAST_RATIO) continue;
    let [a, b, power, gains] = [0, 0, 0, 0];
    for (let m = 0; m < grid.count; m++) {
      a += frames.real[n][m] * gain[m];
      b += frames.imaginary[n][m] * gain[m];
      gains += gain[m] ** 2;
      power += frames.real[n][m] ** 2 + frames.imaginary[n][m] ** 2;
    }
    shares.push((a * a + b * b) / (gains * power));
  }
  return shares.length === 0 ? null : shares.reduce((sum, one) => sum + one, 0) / shares.length;
}

/** How the strength of all clear partials moves together, as it does where the bow or wheel presses harder; about 1. */
function commonGain(frames: PartialFrames, fit: HarmonicFit): Float64Array {
  const clear = frames.real.flatMap((real, n) =>
    (fit.partials[n].signalToNoise ?? 0) < LEAST_RATIO
      ? []
      : [real.map((value, m) => Math.hypot(value, frames.imaginary[n][m]))],
  );
  const means = clear.map((sizes) => sizes.reduce((sum, value) => sum + value, 0) / sizes.length);
  return Float64Array.from({ length: frames.real[0]?.length ?? 0 }, (_, m) =>
    clear.length === 0 ? 1 : median(clear.map((sizes, n) => sizes[m] / means[n])),
  );
}
