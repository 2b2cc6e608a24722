import { thirdOctaveBands } from "./bandEdges.js";

const bands = thirdOctaveBands.map(({ lowerHz, upperHz }) => ({
  from: Math.log2(lowerHz),
  to: Math.log2(upperHz),
  middle: (Math.log2(lowerHz) + Math.log2(upperHz)) / 2,
  width: Math.log2(upperHz) - Math.log2(lowerHz),
}));

/** Longer than all bands together: the covariance 1 - |h| / RANGE is then positive definite on them (a triangle). */
const RANGE_OCTAVES = 7;

/**
 * Covariance between points and third-octave averages of a curve that wanders: over h octaves it moves by a random amount of
 * variance h (a random walk in log frequency), so nothing is laid down of its shape or its mean, only that near points
 * are alike. Averages over a band are exact integrals of the distance.
 */
export const curveCovariance = {
  /** Between the curve at two frequencies. */
  points(firstHz: number, secondHz: number): number {
    return covariance(Math.abs(Math.log2(firstHz / secondHz)));
  },
  /** Between the curve at a frequency and its average over a band. */
  pointAndBand(frequencyHz: number, index: number): number {
    const { from, to, middle, width } = bands[index];
    const at = Math.log2(frequencyHz);
    const isInside = at > from && at < to;
    return covariance(isInside ? ((at - from) ** 2 + (to - at) ** 2) / (2 * width) : Math.abs(at - middle));
  },
  /** Between the averages over two bands. */
  bands(first: number, second: number): number {
    return covariance(
      first === second ? bands[first].width / 3 : Math.abs(bands[first].middle - bands[second].middle),
    );
  },
};

function covariance(distanceOctaves: number): number {
  return (RANGE_OCTAVES - distanceOctaves) / 2;
}
