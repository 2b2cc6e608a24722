/** A tap as it is first heard: where it begins, in samples of the signal given. */
export interface TapOnset {
  readonly index: number;
  /** Largest magnitude in the first 60 ms. */
  readonly peak: number;
}

const BLOCK_SECONDS = 0.001;
/** Power of the 8 ms after a tap's start against the mean of the 20 ms before it. */
const LEAST_RISE = 10;
const BEFORE_BLOCKS = 20;
const AFTER_BLOCKS = 8;
/** Modes that beat rise again too, but never to where they were; a tap does at least so nearly. */
const EARLIER_BLOCKS = 200;
const LEAST_OF_EARLIER = 0.7;
/** Rises closer than this belong to one tap. */
const ONE_TAP_SECONDS = 0.06;
/** Taps this much weaker than the strongest are noises. */
const LEAST_PEAK_SHARE = 10 ** (-26 / 20);
/** The start is where the push first stands out by this share of the peak of the tap. */
const START_SHARE = 0.02;
/** Soft taps rise in the lows, hard ones among ringing lows in the highs, which differences bring out: both are looked at. */
const EMPHASIS = 0.95;

/**
 * Finds taps: where the power rises within a few milliseconds by 10 dB or more, and no further rise of the same tap came before.
 *
 * @param samples - one channel in the analysis band
 */
export function findTaps(samples: Float64Array, rateHz: number): TapOnset[] {
  const size = Math.max(1, Math.round(BLOCK_SECONDS * rateHz));
  const sharp = samples.map((value, i) => value - EMPHASIS * (samples[i - 1] ?? value));
  const rises = [riseOf(samples, size), riseOf(sharp, size)];
  const rise = rises[0]!.map((value, b) => Math.max(value, rises[1]![b]!));
  const apart = Math.round(ONE_TAP_SECONDS / BLOCK_SECONDS);
  const taps: TapOnset[] = [];
  for (let b = 0; b < rise.length; b++) {
    if (rise[b]! < LEAST_RISE) continue;
    let best = b;
    for (let k = b; k < Math.min(rise.length, b + apart); k++) if (rise[k]! > rise[best]!) best = k;
    taps.push(onsetAt(samples, best * size, size, rateHz));
    b = best + apart;
  }
  const strongest = Math.max(0, ...taps.map(({ peak }) => peak));
  return taps.filter(({ peak }) => peak > LEAST_PEAK_SHARE * strongest);
}

/** Power after each block's start against that before it. */
function riseOf(samples: Float64Array, size: number): Float64Array {
  const count = Math.floor(samples.length / size);
  const power = Float64Array.from({ length: count }, (_, b) => {
    let sum = 0;
    for (let i = b * size; i < (b + 1) * size; i++) sum += samples[i]! ** 2;
    return sum / size;
  });
  const floor = quietPower(power);
  return power.map((_, b) => {
    if (b < BEFORE_BLOCKS || b + AFTER_BLOCKS > count) return 0;
    const after = meanOf(power, b, b + AFTER_BLOCKS);
    if (after < LEAST_OF_EARLIER * loudestBefore(power, b)) return 0;
    return after / Math.max(meanOf(power, b - BEFORE_BLOCKS, b - 1), floor);
  });
}

function onsetAt(samples: Float64Array, near: number, size: number, rateHz: number): TapOnset {
  const end = Math.min(samples.length, near + Math.round(ONE_TAP_SECONDS * rateHz));
  let peak = 0;
  for (let i = near; i < end; i++) peak = Math.max(peak, Math.abs(samples[i]!));
  let noise = 0;
  const from = Math.max(0, near - 20 * size);
  for (let i = from; i < near - 3 * size; i++) noise = Math.max(noise, Math.abs(samples[i]!));
  const level = Math.max(START_SHARE * peak, 1.2 * noise);
  let index = Math.max(from, near - 3 * size);
  while (index < end && Math.abs(samples[index]!) < level) index++;
  return { index, peak };
}

/** Largest mean over so many blocks as are looked at after a rise, in what came before it. */
function loudestBefore(power: Float64Array, block: number): number {
  let loudest = 0;
  for (let b = Math.max(0, block - EARLIER_BLOCKS); b + AFTER_BLOCKS <= block - 1; b += AFTER_BLOCKS / 2) {
    loudest = Math.max(loudest, meanOf(power, b, b + AFTER_BLOCKS));
  }
  return loudest;
}

/** A tenth of the blocks are quieter: the noise between the taps. */
function quietPower(power: Float64Array): number {
  const ranked = power.slice().sort();
  return ranked[Math.floor(0.1 * ranked.length)] ?? 0;
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum / Math.max(1, to - from);
}
