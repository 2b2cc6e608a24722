/** What a log may hold. A take of 24 strings is a line of about five thousand characters. */
export const logLimits = {
  lineCharacters: 1 << 20,
  fileBytes: 1 << 26,
  /** Letters of a note on work. */
  workCharacters: 500,
  /** Of the weather in a room: wide enough for any, narrow enough to catch a slip. */
  temperatureC: [-30, 60],
  humidityPercent: [0, 100],
} as const;
