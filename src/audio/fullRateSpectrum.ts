import { blackmanHarrisWindow } from "../signal/blackmanHarrisWindow.js";
import { WindowedPower } from "../signal/WindowedPower.js";
import type { AudioRecording } from "./AudioRecording.js";
import type { TimeSpan } from "./findPauses.js";
import { withoutNonFinite } from "./withoutNonFinite.js";

/** Power density up to half the sample rate. */
export interface FullRateSpectrum {
  readonly binHz: number;
  /** Power per hertz at k * binHz, mean of windows and channels; a full-scale sine has power 0.5. */
  readonly density: Float64Array;
  readonly windowCount: number;
}

/** Parts partials 65 Hz apart (C2) and shows the noise between them: the window's main lobe is 47 Hz wide at 48 kHz. */
const WINDOW_SECONDS = 0.17;
/** So many windows show noise to less than a decibel; with more channels fewer, so that the time stays the same. */
const MOST_WINDOWS = 32;
const FULL_CHANNELS = 2;
const LEAST_WINDOWS = 8;
/** A note's beginning and end spread each partial over its neighbourhood; left out where the note is long enough. */
const EDGE_SECONDS = 0.1;
const LEAST_EDGED_SECONDS = 0.6;

/**
 * The average spectrum of the notes at the full sample rate (Welch 1967, Blackman-Harris window), power mean of all channels.
 *
 * Reads at most 32 windows of 0.17 s, spread over the notes.
 *
 * @returns null where the notes hold less than one window
 */
export function fullRateSpectrum(
  recording: AudioRecording,
  notes: readonly TimeSpan[],
): FullRateSpectrum | null {
  const { sampleRateHz, channelCount } = recording;
  const size = 2 ** Math.round(Math.log2(WINDOW_SECONDS * sampleRateHz));
  const starts = windowStarts(recording, notes, size);
  if (starts.length === 0) return null;
  const taper = blackmanHarrisWindow(size);
  const squares = taper.reduce((sum, value) => sum + value * value, 0);
  const powers = new WindowedPower(size, taper);
  for (const start of starts) {
    for (const channel of recording.read(start, size)) powers.add(withoutNonFinite(channel), 0);
  }
  const scale = 2 / (sampleRateHz * squares * channelCount * starts.length);
  const density = powers.sums.subarray(0, size / 2).map((power) => power * scale);
  return { binHz: sampleRateHz / size, density, windowCount: starts.length };
}

/** Where the windows begin: evenly over all the time in which one fits into a note, half overlapping at most. */
function windowStarts(recording: AudioRecording, notes: readonly TimeSpan[], size: number): number[] {
  const most = Math.max(
    LEAST_WINDOWS,
    Math.floor(MOST_WINDOWS * Math.min(1, FULL_CHANNELS / recording.channelCount)),
  );
  const rooms = notes
    .map(({ startSeconds, endSeconds }) => {
      const edge = endSeconds - startSeconds < LEAST_EDGED_SECONDS ? 0 : EDGE_SECONDS;
      const first = Math.max(0, Math.ceil((startSeconds + edge) * recording.sampleRateHz));
      const end = Math.min(recording.frameCount, Math.floor((endSeconds - edge) * recording.sampleRateHz));
      return { first, places: Math.floor((end - first - size) / (size / 2)) + 1 };
    })
    .filter(({ places }) => places > 0)
    .sort((a, b) => a.first - b.first);
  const total = rooms.reduce((sum, { places }) => sum + places, 0);
  const count = Math.min(most, total);
  const chosen = Array.from({ length: count }, (_, k) => Math.floor(((k + 0.5) * total) / count));
  let before = 0;
  return rooms.flatMap(({ first, places }) => {
    const own = chosen.filter((place) => place >= before && place < before + places);
    const starts = own.map((place) => first + ((place - before) * size) / 2);
    before += places;
    return starts;
  });
}
