/** How much louder or softer a microphone makes a frequency, in decibels. */
export interface MicrophoneResponse {
  /** Frequencies in hertz, rising, and the response at each in decibels; at least two. */
  readonly points: readonly { readonly frequencyHz: number; readonly levelDb: number }[];
}
