/** What the command hands back to the shell; scripts depend on these. */
export const exitCodes = {
  done: 0,
  someTakesUnusable: 1,
  wrongUsage: 2,
  noTakeUsable: 3,
  outputFailed: 4,
} as const;
