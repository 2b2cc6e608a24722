const midiOfA4 = 69;

/** Equal-tempered frequency of a MIDI note number (which may be fractional): a4Hz * 2^((m - 69) / 12). */
export function midiToFrequencyHz(midi: number, a4Hz: number): number {
  return a4Hz * 2 ** ((midi - midiOfA4) / 12);
}

/** The MIDI note number of a frequency, fractional (a hundredth is a cent): 69 + 12 log2(f / a4Hz). */
export function frequencyHzToMidi(frequencyHz: number, a4Hz: number): number {
  return midiOfA4 + 12 * Math.log2(frequencyHz / a4Hz);
}
