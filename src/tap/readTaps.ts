import type { AudioRecording } from "../audio/AudioRecording.js";
import { median } from "../signal/median.js";
import { chooseWindow } from "./chooseWindow.js";
import { disturbedAtFirst } from "./disturbedAtFirst.js";
import { disturbedTaps } from "./disturbedTaps.js";
import { MOST_POLES } from "./findPoles.js";
import { type FreeRinging, followBack } from "./followBack.js";
import { listenToTaps, type TapSound } from "./listenToTaps.js";
import { pausesBetween } from "./pausesBetween.js";
import { readModes } from "./readModes.js";
import type { TapLack, TapOwnFinding, TapReading } from "./TapReading.js";
import { tapFindings } from "./tapFindings.js";
import { tapResponse } from "./tapResponse.js";
import { whitened } from "./whitened.js";
import { withoutLines } from "./withoutLines.js";

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
  const pieces = pausesBetween(sound.samples, sound.rateHz, all);
  const pauses = joined(pieces);
  const peaks = sound.onsets.map(({ peak }) => peak);
  const noise = joined(withoutLines(pieces, sound.rateHz));
  const { samples, filter } = whitened(sound.samples, noise, Math.max(0, ...peaks));
  onProgress?.(0.3);
  const used = () => all.filter((_, j) => lacks[j] === null);
  const isDisturbed =
    used().length === 0 ? [] : disturbedAtFirst(samples, sound.rateHz, used(), window.length);
  const count = isDisturbed.filter(Boolean).length;
  // Where most are, it isn't single taps that went wrong.
  if (count > 0 && 2 * count <= isDisturbed.length) {
    let position = 0;
    for (const [j, lack] of lacks.entries()) {
      if (lack === null && isDisturbed[position++]) lacks[j] = "disturbed";
    }
  }
  onProgress?.(0.5);
  const ringing = used().length === 0 ? null : followBack(samples, sound.rateHz, used(), window.length);
  const explained = ringing === null ? [] : disturbedTaps(ringing.fit, ringing.data).explained;
  onProgress?.(0.95);
  return reading(recording, { sound, window: window.length, lacks, pauses, filter, ringing, explained });
}

/** Speech is full of onsets that follow each other closely. */
const MANY_ONSETS = 6;

function joined(pieces: readonly Float64Array[]): Float64Array {
  return Float64Array.from(pieces.flatMap((piece) => [...piece]));
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
  const isMostlyLost = lacks.length >= MANY_ONSETS && 3 * used.length < lacks.length;
  const isExplained = ringing !== null && share !== null && share >= LEAST_EXPLAINED && !isMostlyLost;
  const found = isExplained ? readModes(ringing, parts.filter) : null;
  // A fit that takes all poles there are, and few of them modes, imitates something else.
  const isImitated =
    found !== null &&
    ringing !== null &&
    ringing.fit.poles.length >= MOST_POLES &&
    2 * found.modes.length < MOST_POLES;
  const read = isImitated ? null : found;
  const isOfTaps = read !== null;
  const noisePower = pauses.reduce((sum, value) => sum + value * value, 0) / Math.max(1, pauses.length);
  const peak = used.length === 0 ? null : median(used.map((tap) => tap.peak));
  const result = {
    sampleRateHz: recording.sampleRateHz,
    channelCount: recording.channelCount,
    encoding: recording.encoding,
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
