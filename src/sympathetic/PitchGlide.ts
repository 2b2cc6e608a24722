/** How all partials of a string start too high together: f(t) = f (1 + rise exp(-fade t)). */
export interface PitchGlide {
  readonly rise: number;
  readonly fadePerSecond: number;
}

/** Time by which a gliding partial is ahead of a settled one, per unit of rise: the integral of exp(-fade t). */
export function glideLead(fadePerSecond: number, seconds: number): number {
  return (1 - Math.exp(-fadePerSecond * seconds)) / fadePerSecond;
}
