/** Where a buzz begins, and in how wide a stretch it may. */
export interface OnsetFit {
  /** Middle of what is likely, in samples of the course. */
  readonly at: number;
  /** From there to the farther end of what holds 95 of 100, in samples. */
  readonly reach: number;
}

/** What is known of a course beforehand. */
export interface RisingCourse {
  /** Power above that without buzz, in any unit. */
  readonly power: Float64Array;
  /** Its standard deviation without buzz. */
  readonly noise: number;
  /** Standard deviation of a buzz about its own mean, as a share of it. */
  readonly ownSpread: number;
  /** Share of the full rise at so many samples after the onset (see `riseShape`). */
  readonly shape: (samplesAfter: number) => number;
  /** Half of the samples that a rise takes. */
  readonly halfRise: number;
}

const STEP = 0.5;
/** Samples at each end between which no onset is looked for. */
const ENDS = [2, 3] as const;
/** How far a real rise may be off the shape, as a share of its height. */
const SHAPE_SHARE = 0.02;
/** Neighbouring samples share most of their frame: so many count as one in ten. */
const INDEPENDENT_SHARE = 0.3;
const TAIL = 0.025;

/**
 * Likelihood of each moment as the onset, all alike before: the course is one mean before it and rises by the given shape to another;
 * a sample scatters about that by noise and by a share of its own mean (a buzz is rough, silence is not), as Gaussian numbers do.
 * Unlike the split that leaves the least squares (`stepAt`), a weak begin counts for what it is against the silence before it, and not
 * for how little it is against what follows.
 *
 * @param from - samples from here ...
 * @param to - ... to before here are looked at; some eight or more
 * @returns null where the course nowhere rises
 */
export function fitOnset(course: RisingCourse, from: number, to: number): OnsetFit | null {
  const { power, noise, ownSpread, shape, halfRise } = course;
  const places: number[] = [];
  const logs: number[] = [];
  for (let at = from + ENDS[0]; at < to - ENDS[1]; at += STEP) {
    const before = mean(from, Math.max(from + 1, Math.floor(at - halfRise)));
    const height = mean(Math.min(to - 2, Math.ceil(at + halfRise)), to) - before;
    if (!(height > 0)) continue;
    places.push(at);
    logs.push(INDEPENDENT_SHARE * logLikelihood(at, before, height));
  }
  if (places.length === 0) return null;
  const top = Math.max(...logs);
  const chances = logs.map((value) => Math.exp(value - top));
  const total = chances.reduce((sum, value) => sum + value, 0);
  const at = quantile(0.5);
  return { at, reach: Math.max(quantile(1 - TAIL) - at, at - quantile(TAIL)) };

  function logLikelihood(at: number, before: number, height: number): number {
    let sum = 0;
    for (let m = from; m < to; m++) {
      const expected = before + height * shape(m - at);
      const variance = noise ** 2 + (ownSpread * expected) ** 2 + (SHAPE_SHARE * height) ** 2;
      sum -= (Math.log(variance) + (power[m] - expected) ** 2 / variance) / 2;
    }
    return sum;
  }

  function mean(first: number, last: number): number {
    let sum = 0;
    for (let m = first; m < last; m++) sum += power[m];
    return sum / (last - first);
  }

  function quantile(share: number): number {
    let sum = 0;
    for (const [i, chance] of chances.entries()) {
      sum += chance;
      if (sum >= share * total) return places[i];
    }
    return places[places.length - 1];
  }
}
