/**
 * Two harmonic series, or two partials, must go through so many cycles against each other over a passage to be told apart
 * (our policy): below, the error of their frequencies grows, to double at 1 and fourfold at 0.5 (simulated).
 */
export const LEAST_CYCLES = 1.5;
