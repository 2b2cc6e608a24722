/** Who works in the scratch memory: each has its own, since one may be at work while another is called. */
export const ScratchUser = {
  fourier: 0,
  decimation: 1,
  tracker: 2,
  smoothing: 3,
  columns: 4,
  equations: 5,
  survey: 6,
  sums: 7,
  band: 8,
  whitening: 9,
  windowedPower: 10,
  decoding: 11,
  turning: 12,
  demodulation: 13,
  drones: 14,
} as const;
export type ScratchUser = (typeof ScratchUser)[keyof typeof ScratchUser];
