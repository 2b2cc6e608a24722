/**
 * A power ratio in decibels, 10 lg p.
 *
 * A plain number in and out: 0 gives -Infinity and a negative power NaN. Where "no level" can occur, the
 * caller checks for it and hands on null.
 */
export function powerToDb(power: number): number {
  return 10 * Math.log10(power);
}

/** An amplitude ratio in decibels, 20 lg a; 0 gives -Infinity. */
export function amplitudeToDb(amplitude: number): number {
  return 20 * Math.log10(amplitude);
}

/** The power ratio of a level in decibels, 10^(L / 10); -Infinity gives 0. */
export function dbToPower(levelDb: number): number {
  return 10 ** (levelDb / 10);
}

/** The amplitude ratio of a level in decibels, 10^(L / 20); -Infinity gives 0. */
export function dbToAmplitude(levelDb: number): number {
  return 10 ** (levelDb / 20);
}
