/**
 * Frequency of the strongest line near another one, from one long spectrum: a discrete-time Fourier transform written out, under a
 * Hann window over the whole stretch, its top found by golden-section search. It shares no code with what it is to check.
 */
export function longLineHz(
  samples: Float32Array,
  rateHz: number,
  startSeconds: number,
  endSeconds: number,
  nearHz: number,
): number {
  const stretch = samples.subarray(Math.round(startSeconds * rateHz), Math.round(endSeconds * rateHz));
  const power = (hz: number) => {
    let [re, im] = [0, 0];
    for (let i = 0; i < stretch.length; i++) {
      const weight = stretch[i]! * Math.sin((Math.PI * i) / stretch.length) ** 2;
      const angle = (2 * Math.PI * hz * i) / rateHz;
      re += weight * Math.cos(angle);
      im += weight * Math.sin(angle);
    }
    return re * re + im * im;
  };
  const stepHz = 0.5 / (endSeconds - startSeconds);
  let top = nearHz;
  let most = 0;
  for (let hz = nearHz * 2 ** (-60 / 1200); hz < nearHz * 2 ** (60 / 1200); hz += stepHz) {
    const here = power(hz);
    if (here > most) [most, top] = [here, hz];
  }
  let [low, high] = [top - stepHz, top + stepHz];
  const golden = (Math.sqrt(5) - 1) / 2;
  while (high - low > 1e-4) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (power(a) > power(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}
