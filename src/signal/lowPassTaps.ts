const known = new Map<string, Float64Array>();

/**
 * Taps of a linear-phase low-pass filter by the Kaiser window method (Kaiser 1974; formulas as in Oppenheim & Schafer,
 * Discrete-Time Signal Processing; from memory). Gain 1 at 0 Hz.
 *
 * @param passHz - up to here the gain is 1 within the ripple that `attenuationDb` allows
 * @param stopHz - from here on everything is `attenuationDb` down
 * @param attenuationDb - 60 to 120
 * @returns an odd number of taps, symmetric; the same array each time, not to be changed
 */
export function lowPassTaps(
  passHz: number,
  stopHz: number,
  sampleRateHz: number,
  attenuationDb: number,
): Float64Array {
  const key = [passHz, stopHz, sampleRateHz, attenuationDb].join(" ");
  let taps = known.get(key);
  if (taps === undefined) {
    taps = makeTaps(passHz, stopHz, sampleRateHz, attenuationDb);
    known.set(key, taps);
  }
  return taps;
}

function makeTaps(passHz: number, stopHz: number, sampleRateHz: number, attenuationDb: number): Float64Array {
  const transition = (2 * Math.PI * (stopHz - passHz)) / sampleRateHz;
  const half = Math.ceil((attenuationDb - 8) / (2.285 * transition) / 2);
  const beta = 0.1102 * (attenuationDb - 8.7);
  const cutoff = (passHz + stopHz) / sampleRateHz;
  const taps = new Float64Array(2 * half + 1);
  let sum = 0;
  for (let i = -half; i <= half; i++) {
    const sinc = i === 0 ? cutoff : Math.sin(Math.PI * cutoff * i) / (Math.PI * i);
    taps[i + half] = sinc * besselI0(beta * Math.sqrt(1 - (i / half) ** 2));
    sum += taps[i + half];
  }
  return taps.map((tap) => tap / sum);
}

function besselI0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > 1e-12 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
