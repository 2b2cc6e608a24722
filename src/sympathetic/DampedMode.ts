/** One decaying sine of a string: |a| exp(-decay t) cos(2 pi f t + arg a), t from the beginning of the stretch it was fitted in. */
export interface DampedMode {
  readonly frequencyHz: number;
  /** Of the amplitude, a second; negative for what grows. */
  readonly decayPerSecond: number;
  readonly re: number;
  readonly im: number;
}

/** The same mode with its amplitude as it is `seconds` later. */
export function laterMode(mode: DampedMode, seconds: number): DampedMode {
  const size = Math.exp(-mode.decayPerSecond * seconds);
  const angle = 2 * Math.PI * mode.frequencyHz * seconds;
  const [cos, sin] = [size * Math.cos(angle), size * Math.sin(angle)];
  return { ...mode, re: mode.re * cos - mode.im * sin, im: mode.re * sin + mode.im * cos };
}

/** The mode with the largest amplitude. */
export function strongest(modes: readonly DampedMode[]): DampedMode {
  return modes.reduce((a, b) => (Math.hypot(b.re, b.im) > Math.hypot(a.re, a.im) ? b : a));
}
