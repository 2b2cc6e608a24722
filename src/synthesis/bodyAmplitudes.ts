/** One resonance of an invented sound box. */
export interface BodyResonance {
  readonly frequencyHz: number;
  readonly q: number;
  readonly gainDb: number;
}

/**
 * Peak amplitudes of the partials of an ideally bowed string (1/n) heard through an invented sound box.
 *
 * Below `lowestModeHz` the box falls by 12 dB an octave, as a box does below its lowest mode; each resonance adds a bell.
 *
 * @param frequencyHz - fundamental of the string
 * @param partialCount - how many partials to give
 * @param fundamentalAmplitude - amplitude that partial 1 would have without the box
 */
export function bodyAmplitudes(
  frequencyHz: number,
  partialCount: number,
  fundamentalAmplitude: number,
  resonances: readonly BodyResonance[] = [],
  lowestModeHz = 0,
): number[] {
  return Array.from({ length: partialCount }, (_, index) => {
    const number = index + 1;
    const partialHz = number * frequencyHz;
    let gainDb = lowestModeHz > 0 ? -10 * Math.log10(1 + (lowestModeHz / partialHz) ** 4) : 0;
    for (const { frequencyHz: modeHz, q, gainDb: peakDb } of resonances) {
      const detuning = q * (partialHz / modeHz - modeHz / partialHz);
      gainDb += peakDb / (1 + detuning * detuning);
    }
    return (fundamentalAmplitude / number) * 10 ** (gainDb / 20);
  });
}
