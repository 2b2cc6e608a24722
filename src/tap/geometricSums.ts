/** Below this distance of q from 1 the closed forms lose their digits, and the terms are added up. */
const NEAR_ONE = 2e-3;

/**
 * Sums of q^n, n q^n and n^2 q^n for n from 0 to count - 1, q complex: all inner products of decaying vibrations are
 * made of these.
 *
 * Closed forms of the geometric series and of its derivatives.
 *
 * @param out - filled with real and imaginary parts of the three sums, in this order
 */
export function geometricSums(qRe: number, qIm: number, count: number, out: Float64Array): void {
  const oneRe = 1 - qRe;
  const oneIm = -qIm;
  const size = oneRe * oneRe + oneIm * oneIm;
  if (size < NEAR_ONE * NEAR_ONE) {
    addUp(qRe, qIm, count, out);
    return;
  }
  const invRe = oneRe / size;
  const invIm = -oneIm / size;
  const logSize = 0.5 * Math.log(qRe * qRe + qIm * qIm) * count;
  const angle = Math.atan2(qIm, qRe) * count;
  const powerSize = logSize < -700 ? 0 : Math.exp(logSize);
  const pRe = powerSize * Math.cos(angle);
  const pIm = powerSize * Math.sin(angle);
  // S0 = (1 - p) / (1 - q), p = q^count.
  const s0Re = (1 - pRe) * invRe + pIm * invIm;
  const s0Im = (1 - pRe) * invIm - pIm * invRe;
  // S1 = (q S0 - (count - 1) p ... ) by summation by parts: (1 - q) S1 = q S0 - (count - 1) p - (q S0 - q (1 - p) / (1 - q) ...)
  // is shorter as (1 - q) S1 = S0 - 1 - (count - 1) p.
  const a1Re = s0Re - 1 - (count - 1) * pRe;
  const a1Im = s0Im - (count - 1) * pIm;
  const s1Re = a1Re * invRe - a1Im * invIm;
  const s1Im = a1Re * invIm + a1Im * invRe;
  // (1 - q) S2 = 2 S1 - S0 + 1 - (count - 1)^2 p, from n^2 - (n - 1)^2 = 2 n - 1.
  const square = (count - 1) * (count - 1);
  const a2Re = 2 * s1Re - s0Re + 1 - square * pRe;
  const a2Im = 2 * s1Im - s0Im - square * pIm;
  out[0] = s0Re;
  out[1] = s0Im;
  out[2] = s1Re;
  out[3] = s1Im;
  out[4] = a2Re * invRe - a2Im * invIm;
  out[5] = a2Re * invIm + a2Im * invRe;
}

function addUp(qRe: number, qIm: number, count: number, out: Float64Array): void {
  out.fill(0);
  let [re, im] = [1, 0];
  for (let n = 0; n < count; n++) {
    out[0] += re;
    out[1] += im;
    out[2] += n * re;
    out[3] += n * im;
    out[4] += n * n * re;
    out[5] += n * n * im;
    [re, im] = [re * qRe - im * qIm, re * qIm + im * qRe];
  }
}
