/** Cosine and sine of each harmonic of a phase in turn. */
export function swingColumns(phase: Float64Array, harmonics: readonly number[]): Float64Array[] {
  return harmonics.flatMap((harmonic) => {
    const cosine = new Float64Array(phase.length);
    const sine = new Float64Array(phase.length);
    for (let m = 0; m < phase.length; m++) {
      cosine[m] = Math.cos(harmonic * phase[m]);
      sine[m] = Math.sin(harmonic * phase[m]);
    }
    return [cosine, sine];
  });
}
