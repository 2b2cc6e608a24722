/**
 * Chance that the strongest line of a passage stands out by this much where nothing keeps time with a wheel.
 *
 * The tail is exponential. Its place comes from simulation: first-order Gauss-Markov movement with correlation times of 0.02
 * to 1 s, passages of 4 to 40 s, one to three strings (`tests/proof/wheelFalseAlarms`). Neither correlation time nor length moves it
 * by more than 1; each further series of pitch or level adds its own chances.
 *
 * @param gain - see `findTurnLine`
 * @param seriesCount - of pitch and level together
 */
export function lineProbability(gain: number, seriesCount: number): number {
  const at5Percent = AT_NONE + PER_SERIES * seriesCount;
  return Math.min(1, 0.05 * Math.exp((at5Percent - gain) / FALL));
}

const AT_NONE = 9.5;
const PER_SERIES = 2.1;
const FALL = 3;
