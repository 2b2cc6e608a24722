// Frames of a partial, cut from the spectrum of a whole passage (`partials/joint/SegmentSpectrum`).
import { inverse } from "./fourier";

// @ts-ignore: decorator
@external("math", "cos")
declare function cos(angle: f64): f64;

/**
 * Moves a band of the spectrum to 0 Hz, weights it, transforms it back and turns away the rest of its frequency.
 *
 * @param band - bins from `size` / 2 - 1 below the centre to as many above it; what lies beyond the spectrum is 0
 * @param values - room for `size` complex values, as is `work`
 * @param restHz - how far the partial lies above the centre bin
 * @param flatHz - the band is passed whole so far from the partial, and not at all `edgeHz` from it
 * @param turnReal - what turns back the rest from one frame to the next, as does `turnImaginary`
 * @param firstFrame - frames before the first one that is wanted
 */
export function cutBand(
  band: usize,
  values: usize,
  work: usize,
  factors: usize,
  size: i32,
  scale: f64,
  binHz: f64,
  restHz: f64,
  flatHz: f64,
  edgeHz: f64,
  turnReal: f64,
  turnImaginary: f64,
  firstFrame: i32,
  count: i32,
  real: usize,
  imaginary: usize,
): void {
  const half = size >> 1;
  v128.store(values + (<usize>half << 4), f64x2.splat(0));
  for (let offset = 1 - half; offset < half; offset++) {
    const away = abs<f64>(<f64>offset * binHz - restHz);
    let weight = scale;
    if (away >= edgeHz) weight = 0;
    else if (away > flatHz) weight *= 0.5 + 0.5 * cos((Math.PI * (away - flatHz)) / (edgeHz - flatHz));
    const place = <usize>(offset < 0 ? offset + size : offset);
    const bin = <usize>(offset + half - 1);
    v128.store(values + (place << 4), f64x2.mul(v128.load(band + (bin << 4)), f64x2.splat(weight)));
  }
  const frames = inverse(values, work, factors, size);
  let c: f64 = 1;
  let s: f64 = 0;
  for (let m: usize = 0; m < <usize>count; m++) {
    const at = frames + ((((<usize>firstFrame + m) & (<usize>size - 1)) << 4));
    const a = load<f64>(at);
    const b = load<f64>(at, 8);
    store<f64>(real + (m << 3), a * c - b * s);
    store<f64>(imaginary + (m << 3), a * s + b * c);
    const next = c * turnReal - s * turnImaginary;
    s = c * turnImaginary + s * turnReal;
    c = next;
  }
}

/** Turns frames by phasors (interleaved): real and imaginary parts are written over. */
export function turnFrames(real: usize, imaginary: usize, phasors: usize, count: i32): void {
  const end: usize = <usize>count << 3;
  for (let at: usize = 0; at < end; at += 16) {
    const first = v128.load(phasors + 2 * at);
    const second = v128.load(phasors + 2 * at, 16);
    const c = v128.shuffle<f64>(first, second, 0, 2);
    const s = v128.shuffle<f64>(first, second, 1, 3);
    const a = v128.load(real + at);
    const b = v128.load(imaginary + at);
    v128.store(real + at, f64x2.sub(f64x2.mul(a, c), f64x2.mul(b, s)));
    v128.store(imaginary + at, f64x2.add(f64x2.mul(a, s), f64x2.mul(b, c)));
  }
}

/**
 * Powers of a series of phasors (interleaved): row r of `powers` is `start` times the r + 1st power.
 *
 * @param rows - how many
 */
export function phasorPowers(phasors: usize, start: usize, count: i32, rows: i32, powers: usize): void {
  const bytes: usize = <usize>count << 4;
  const minusBelow = f64x2(-1, 1);
  for (let row = 0; row < rows; row++) {
    const to = powers + <usize>row * bytes;
    for (let at: usize = 0; at < bytes; at += 16) {
      const value = v128.load(start + at);
      const turned = f64x2.mul(v128.shuffle<f64>(value, value, 1, 0), minusBelow);
      const real = v128.load64_splat(phasors + at);
      const imaginary = v128.load64_splat(phasors + at, 8);
      v128.store(to + at, f64x2.add(f64x2.mul(value, real), f64x2.mul(turned, imaginary)));
    }
    start = to;
  }
}
