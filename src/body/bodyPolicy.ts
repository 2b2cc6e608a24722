/**
 * How far a bowed string's own slope may lie off the ideal 1/n, as a standard deviation in dB an octave: bow pressure, rosin, cotton
 * and the string itself do that. Our policy; no published spread is known to us for wheel-bowed strings.
 */
export const STRING_SLOPE_DB = 1.5;

/** Where a body is taken for even: the six third-octave bands of 400 to 1250 Hz, 354.8 to 1412.5 Hz (IEC 61260-1). */
export const REFERENCE_RANGE_HZ = { from: 1000 * 10 ** -0.45, to: 1000 * 10 ** 0.15 };

/** Two-sided 95 % quantile of the normal distribution. */
export const NORMAL_95 = 1.959964;
