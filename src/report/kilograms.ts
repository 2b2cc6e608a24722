const NEWTON_PER_KILOGRAM_FORCE = 9.80665;

/** A tension in kilogram-force, as makers of strings often give it. */
export function kilograms(newton: number): string {
  return (newton / NEWTON_PER_KILOGRAM_FORCE).toFixed(1);
}
