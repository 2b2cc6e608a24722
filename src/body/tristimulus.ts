/**
 * Shares of amplitude in the fundamental, in partials 2 to 4, and in partials 5 and up. Pollard & Jansson (1982, Acustica
 * 51) defined it on loudness; this is the usual form on amplitudes.
 *
 * @param amplitudes - of partials 1, 2, 3, ...
 * @returns three shares that sum to 1; null for silence
 */
export function tristimulus(amplitudes: readonly number[]): readonly [number, number, number] | null {
  const total = amplitudes.reduce((sum, amplitude) => sum + amplitude, 0);
  if (!(total > 0)) return null;
  const share = (from: number, to: number) =>
    amplitudes.slice(from, to).reduce((sum, amplitude) => sum + amplitude, 0) / total;
  return [share(0, 1), share(1, 4), share(4, amplitudes.length)];
}
