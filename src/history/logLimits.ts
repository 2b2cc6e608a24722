/** What a log may hold. A take of 24 strings is a line of about five thousand characters. */
export const logLimits = {
  lineCharacters: 1 << 20,
  fileBytes: 1 << 26,
} as const;
