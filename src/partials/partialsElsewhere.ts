import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import { median } from "../signal/median.js";
import type { AnalysisSegment } from "./AnalysisSegment.js";
import { demodulate } from "./demodulate.js";
import type { FrameGrid } from "./FrameGrid.js";
import type { HarmonicFit } from "./HarmonicFit.js";
import { smoothFrames } from "./smoothFrames.js";

/** The partials of a fit in another channel. */
export interface PartialsElsewhere {
  /** One power a partial, noise taken off, at least 0; 1 is a full-scale sine. */
  readonly powers: readonly number[];
  /** Power at partials that stand out of the noise and do not go along the fit's course: another string's. */
  readonly strayPower: number;
  /** The strongest partial that such power stands at; null where there is none. */
  readonly strayNumber: number | null;
}

/** A partial that stands this far out of the noise shows whether it goes along. */
const CLEAR_RATIO = 30;
/** Less of a partial than this going along, its phase held still by the course, may be another string's ... */
const LEAST_ALONG = 0.5;
/**
 * ... and is, where its phase goes through so many cycles as well. That of a partial beside a notch of the room moves with
 * the swing of the pitch, but comes back.
 */
const LEAST_CYCLES = 1;
/** Those of another string are off by one share of their frequency, within this. What a room does to them differs. */
const ALIKE_SHARE = 0.25;
/** So many partials and this share of the clear ones: half of them for an octave, a third for a twelfth. */
const LEAST_STRAY = 3;
const STRAY_SHARE = 0.28;

/** Rows of the kernels' memory besides the real and the imaginary part. */
const [SIZES, SUMS, ROWS] = [2, 3, 4];

/**
 * Powers of a fit's partials in another channel of the same passage, along the course that the fit found.
 *
 * A partial of the same string keeps its phase along that course, whatever the phase is; one of another string, a few
 * cents off, turns through all of them.
 */
export function partialsElsewhere(
  segment: AnalysisSegment,
  fit: HarmonicFit,
  noiseDensity: readonly (number | null)[],
): PartialsElsewhere {
  const { hopSeconds, centSeconds } = fit.course;
  const grid: FrameGrid = { firstSeconds: fit.startSeconds, hopSeconds, count: centSeconds.length };
  const cyclesPerCent = (fit.frequencyHz * Math.LN2) / 1200;
  const cycles = centSeconds.map((value) => value * cyclesPerCent);
  const frames = smoothFrames(demodulate(segment, grid, fit.frequencyHz, cycles, fit.partials.length), grid);
  const sums = new KernelRows(ScratchUser.frames, ROWS, Math.max(grid.count, 5));
  const [realAt, imaginaryAt, sumsAt] = [sums.place(0), sums.place(1), sums.place(SUMS)];
  const { functions } = kernels();
  const rows = frames.real.map((real, n) => {
    const imaginary = frames.imaginary[n];
    sums.put(0, real);
    sums.put(1, imaginary);
    functions.frameSums(realAt, imaginaryAt, grid.count, sumsAt);
    const [sumReal, sumImaginary] = [sums.value(SUMS, 0), sums.value(SUMS, 1)];
    functions.phasorSums(realAt, imaginaryAt, grid.count, 1, grid.count, sums.place(SIZES), sumsAt);
    const [sum, turnReal, turnImaginary] = [1, 2, 3].map((i) => sums.value(SUMS, i));
    const turned = (grid.count * Math.atan2(turnImaginary, turnReal)) / (2 * Math.PI);
    const noise = (noiseDensity[n] ?? 0) * frames.noiseBandwidthHz;
    const power = Math.max(0, sum / grid.count - noise);
    const along = (sumReal ** 2 + sumImaginary ** 2) / grid.count ** 2;
    const isClear = noiseDensity[n] !== null && power > CLEAR_RATIO * noise;
    return {
      number: n + 1,
      power,
      isClear,
      offShare: turned / (n + 1),
      isStray: isClear && along < LEAST_ALONG * power && Math.abs(turned) > LEAST_CYCLES,
    };
  });
  const astray = rows.filter(({ isStray }) => isStray);
  const common = median(astray.map(({ offShare }) => offShare));
  const strayed = astray.filter(
    ({ offShare }) => Math.abs(offShare - common) < ALIKE_SHARE * Math.abs(common),
  );
  const clearCount = rows.filter(({ isClear }) => isClear).length;
  const isOther = strayed.length >= LEAST_STRAY && strayed.length >= STRAY_SHARE * clearCount;
  const stray = isOther ? strayed : [];
  const strongest = stray.reduce<(typeof stray)[number] | null>(
    (a, b) => (a && a.power > b.power ? a : b),
    null,
  );
  return {
    powers: rows.map(({ power }) => power),
    strayPower: stray.reduce((sum, { power }) => sum + power, 0),
    strayNumber: strongest?.number ?? null,
  };
}
