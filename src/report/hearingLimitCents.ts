/**
 * The smallest pitch step that a good ear hears between two tones one after the other, in cents.
 *
 * Wier, Jesteadt & Green (1977), pure tones: lg(df) = 0.026 sqrt(f) - 0.533 with f and df in hertz (formula from
 * memory). Their data start at 200 Hz; below that it is extrapolated. Two strings sounding together are heard by
 * their beats, far below this limit.
 *
 * @param frequencyHz - above 0
 */
export function hearingLimitCents(frequencyHz: number): number {
  const stepHz = 10 ** (0.026 * Math.sqrt(frequencyHz) - 0.533);
  return 1200 * Math.log2(1 + stepHz / frequencyHz);
}
