import type { DampedMode } from "./DampedMode.js";
import type { PartialFrames } from "./partialFrames.js";

/** Decay to begin with where the frames tell none. */
const USUAL_DECAY = 5;
const LARGEST_DECAY = 60;

/**
 * A first guess of one decaying sine in the frames of a partial: each frame against the one before gives frequency and decay
 * (Kay 1989, weighted by strength), a linear fit the amplitude.
 */
export function startMode(frames: PartialFrames): DampedMode {
  const { times, centreHz } = frames;
  const { re, im } = still(frames);
  let productRe = 0;
  let productIm = 0;
  let power = 0;
  for (let m = 0; m + 1 < re.length; m++) {
    productRe += re[m + 1] * re[m] + im[m + 1] * im[m];
    productIm += im[m + 1] * re[m] - re[m + 1] * im[m];
    power += re[m] ** 2 + im[m] ** 2;
  }
  const hopSeconds = frames.frameSeconds / 2;
  const shrink = Math.hypot(productRe, productIm) / power;
  const decay = shrink > 0 ? -Math.log(shrink) / hopSeconds : USUAL_DECAY;
  const decayPerSecond = Math.min(LARGEST_DECAY, Math.max(0.1, Number.isFinite(decay) ? decay : USUAL_DECAY));
  const omega = Math.atan2(productIm, productRe) / hopSeconds;
  let sumRe = 0;
  let sumIm = 0;
  let weight = 0;
  for (const [m, t] of times.entries()) {
    const size = Math.exp(-decayPerSecond * t);
    const [cos, sin] = [Math.cos(omega * t), Math.sin(omega * t)];
    sumRe += size * (re[m] * cos + im[m] * sin);
    sumIm += size * (im[m] * cos - re[m] * sin);
    weight += size * size;
  }
  return {
    frequencyHz: centreHz + omega / (2 * Math.PI),
    decayPerSecond,
    re: sumRe / weight,
    im: sumIm / weight,
  };
}

/** The frames turned back along the glide. */
function still({ re, im, turn }: PartialFrames): { re: Float64Array; im: Float64Array } {
  if (turn === null) return { re, im };
  return {
    re: re.map((value, m) => value * turn.re[m] + im[m] * turn.im[m]),
    im: im.map((value, m) => value * turn.re[m] - re[m] * turn.im[m]),
  };
}
