import type { AudioRecording } from "../audio/AudioRecording.js";
import { median } from "../signal/median.js";
import { chooseWindow } from "./chooseWindow.js";
import { disturbedTaps } from "./disturbedTaps.js";
import { type FreeRinging, followBack } from "./followBack.js";
import { listenToTaps, type TapSound } from "./listenToTaps.js";
import { pausesBetween } from "./pausesBetween.js";
import { readModes } from "./readModes.js";
import type { TapLack, TapOwnFinding, TapReading } from "./TapReading.js";
import { tapFindings } from "./tapFindings.js";
import { tapResponse } from "./tapResponse.js";
import { whitened } from "./whitened.js";

/** How taps are read. */
export interface TapOptions {
  /** Called with the share that is done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** More taps than this make nothing surer that matters, and take their time. */
const MOST_TAPS = 24;
/** Where the common modes explain less of the taps than this, they were no taps, or of different things. */
const LEAST_EXPLAINED = 0.75;

/**
 * Reads the decaying modes from a take of taps on a body whose strings are damped or off.
 *
 * 1. Taps: sudden rises of power; those that are cut off, followed too closely by another or hit twice are left out.
 * 2. The noise between them is made white (autoregression), so that least squares is maximum likelihood.
 * 3. Decaying vibrations common to all taps, each tap with amplitudes of its own, by variable projection (Golub & Pereyra 1973);
 *    found one after another, and fitted anew together each time. Windows begin when finger or stick has left, tap by tap.
 * 4. Steady lines and strings that ring are told by their Q, and left out.
 *
 * Frequencies from about 50 to 2500 Hz, Q from 5 to 150. For how sure they are, see `poleErrors`.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for a recording of
 * more than five minutes
 * @example
 * ```ts
 * const { modes } = readTaps(recording);
 * modes[0].frequencyHz.value; // 182.4
 * ```
 */
export function readTaps(recording: AudioRecording, { onProgress }: TapOptions = {}): TapReading {
  const sound = listenToTaps(recording, onProgress);
  const all = sound.onsets.map(({ index }) => index);
  const window = chooseWindow(all, sound.samples.length, sound.rateHz);
  let usable = 0;
  const lacks = all.map((_, j): TapLack | null => {
    if (!window.hasRoom[j]) return "too-close";
    if (sound.isClipped[j]) return "clipped";
    usable++;
    return usable > MOST_TAPS ? "beyond-limit" : null;
  });
  const pauses = pausesBetween(sound.samples, sound.rateHz, all);
  const peaks = sound.onsets.map(({ peak }) => peak);
  const { samples, filter } = whitened(sound.samples, pauses, Math.max(0, ...peaks));
  onProgress?.(0.3);
  const used = () => all.filter((_, j) => lacks[j] === null);
  const ring = () => (used().length === 0 ? null : followBack(samples, sound.rateHz, used(), window.length));
  let ringing = ring();
  let explained = ringing === null ? [] : disturbedTaps(ringing.fit, ringing.data).explained;
  if (ringing !== null) {
    const { isDisturbed } = disturbedTaps(ringing.fit, ringing.data);
    const count = isDisturbed.filter(Boolean).length;
    onProgress?.(0.7);
    // Where most are, it isn't single taps that went wrong.
    if (count > 0 && 2 * count <= isDisturbed.length) {
      let position = 0;
      for (const [j, lack] of lacks.entries()) {
        if (lack === null && isDisturbed[position++]) lacks[j] = "disturbed";
      }
      ringing = ring();
      explained = ringing === null ? [] : disturbedTaps(ringing.fit, ringing.data).explained;
    }
  }
  onProgress?.(0.95);
  return reading(recording, { sound, window: window.length, lacks, pauses, filter, ringing, explained });
}

interface Parts {
  readonly sound: TapSound;
  readonly window: number;
  readonly lacks: readonly (TapLack | null)[];
  readonly pauses: Float64Array;
  readonly filter: Float64Array;
  readonly ringing: FreeRinging | null;
  readonly explained: readonly number[];
}

function reading(recording: AudioRecording, parts: Parts): TapReading {
  const { sound, lacks, ringing, explained, pauses } = parts;
  const used = sound.onsets.filter((_, j) => lacks[j] === null);
  const share = explained.length === 0 ? null : median(explained);
  const isOfTaps = ringing !== null && share !== null && share >= LEAST_EXPLAINED;
  const read = isOfTaps ? readModes(ringing, parts.filter) : null;
  const noisePower = pauses.reduce((sum, value) => sum + value * value, 0) / Math.max(1, pauses.length);
  const peak = used.length === 0 ? null : median(used.map((tap) => tap.peak));
  const result = {
    sampleRateHz: recording.sampleRateHz,
    channelCount: recording.channelCount,
    durationSeconds: recording.durationSeconds,
    taps: sound.onsets.map((tap, j) => ({
      atSeconds: tap.index / sound.rateHz,
      peakDb: 20 * Math.log10(tap.peak),
      leftOut: lacks[j]!,
    })),
    modes: read?.modes ?? [],
    leftOut: read?.leftOut ?? [],
    response: isOfTaps
      ? tapResponse(
          sound.samples,
          sound.rateHz,
          used.map(({ index }) => index),
          parts.window,
          pauses,
        )
      : [],
    explainedShare: share,
    roomDb: read === null || read.roomShare === 0 ? null : 10 * Math.log10(read.roomShare),
    peakToNoiseDb: peak === null || noisePower === 0 ? null : 10 * Math.log10((peak * peak) / noisePower),
  };
  const own: readonly TapOwnFinding[] = tapFindings(result, isOfTaps);
  return { ...result, findings: [...own, ...sound.findings] };
}
