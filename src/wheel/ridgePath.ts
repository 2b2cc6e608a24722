import { KernelRows } from "../kernels/KernelRows.js";
import { kernels } from "../kernels/kernels.js";
import { ScratchUser } from "../kernels/ScratchUser.js";
import type { RateMap } from "./rateMap.js";
import { KNOT_SECONDS, knotCount, type TurnPath, turnPath } from "./turnPath.js";

/** Rows of the kernels' memory. */
const [BEST, REACHES, FACTORS, STRENGTHS, NEXT, BACK, ROWS] = [0, 1, 2, 3, 4, 5, 6];
/** How far the rate may go from one window to the next, as a share of it. */
const LARGEST_CHANGE = 0.1;

/**
 * The path of rates along which a map is strongest, going from window to window no faster than a crank does: dynamic
 * programming (Viterbi 1967).
 *
 * @param independence - what one window adds to the ones before, as a share of a whole one
 * @param rateSpread - see `followTurns`
 */
export function ridgePath(
  { ratesHz, seconds, strength }: RateMap,
  independence: number,
  rateSpread: number,
  stepCount: number,
  stepSeconds: number,
): TurnPath | null {
  if (ratesHz.length === 0 || strength.length === 0) return null;
  const hopSeconds = seconds.length > 1 ? seconds[1] - seconds[0] : 1;
  const variance = 2 * rateSpread ** 2 * (1 - Math.exp(-hopSeconds / 2));
  const gridHz = ratesHz.length > 1 ? ratesHz[1] - ratesHz[0] : 1;
  const reach = Math.ceil((LARGEST_CHANGE * ratesHz[ratesHz.length - 1]) / gridHz);
  const count = ratesHz.length;
  const rows = new KernelRows(ScratchUser.rates, ROWS, count);
  const reaches = ratesHz.map((rateHz) => Math.min(reach, Math.ceil((LARGEST_CHANGE * rateHz) / gridHz)));
  rows.put(REACHES, reaches);
  rows.put(
    FACTORS,
    ratesHz.map((rateHz) => gridHz ** 2 / (2 * variance * rateHz ** 2)),
  );
  let best: Float64Array = strength[0].map((value) => value * independence);
  const from: Float64Array[] = [];
  for (let w = 1; w < strength.length; w++) {
    rows.put(BEST, best);
    rows.put(STRENGTHS, strength[w]);
    // biome-ignore format: arguments of a kernel
    kernels().functions.bestBefore(rows.place(BEST), count, rows.place(REACHES), rows.place(FACTORS), rows.place(STRENGTHS), independence, rows.place(NEXT), rows.place(BACK));
    best = rows.copy(NEXT);
    from.push(rows.copy(BACK));
  }
  let at = best.reduce((high, value, b) => (value > best[high] ? b : high), 0);
  const rates = new Float64Array(strength.length);
  for (let w = strength.length - 1; w >= 0; w--) {
    rates[w] = ratesHz[at];
    if (w > 0) at = from[w - 1][at];
  }
  return pathOfRates(rates, seconds, stepCount, stepSeconds);
}

function pathOfRates(
  rates: Float64Array,
  seconds: Float64Array,
  stepCount: number,
  stepSeconds: number,
): TurnPath {
  const mean = rates.reduce((sum, rate) => sum + rate, 0) / rates.length;
  const hopSeconds = seconds.length > 1 ? seconds[1] - seconds[0] : 1;
  const rateAt = (time: number) => {
    const place = Math.min(rates.length - 1, Math.max(0, (time - seconds[0]) / hopSeconds));
    const i = Math.min(Math.max(0, rates.length - 2), Math.floor(place));
    return rates[i] + (place - i) * ((rates[i + 1] ?? rates[i]) - rates[i]);
  };
  const knots = new Float64Array(knotCount(stepCount, stepSeconds));
  for (let j = 1; j < knots.length; j++) {
    knots[j] = knots[j - 1] + 2 * Math.PI * KNOT_SECONDS * (rateAt((j - 0.5) * KNOT_SECONDS) - mean);
  }
  return turnPath(mean, knots, stepCount, stepSeconds);
}
