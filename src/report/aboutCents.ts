/** The size of a move, as fine as a peg can follow. */
export function aboutCents(cents: number): string {
  return Math.abs(cents).toFixed(Math.abs(cents) < 1.95 ? 1 : 0);
}
