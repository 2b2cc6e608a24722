import { addMode } from "./addMode.js";
import { type DampedMode, laterMode } from "./DampedMode.js";
import { findOnsets } from "./findOnsets.js";
import { findSeries, type Series } from "./findSeries.js";
import { fitPluck, type PluckFit } from "./fitPluck.js";
import type { Pluck } from "./Pluck.js";
import { pluckOf } from "./pluckOf.js";

/** A sound that begins and is no pluck. */
export interface OtherOnset {
  readonly onsetSeconds: number;
  readonly reason: "no-series" | "no-decay" | "too-short" | "weak";
  readonly frequencyHz: number | null;
}

/** What was plucked in a take. */
export interface PluckedSound {
  readonly plucks: readonly Pluck[];
  readonly others: readonly OtherOnset[];
}

/** A string that still sounds. */
interface RingingString {
  readonly firstHz: number;
  readonly modes: readonly DampedMode[];
}

/** From the moment of a pluck to where its sound is free of finger and window. */
const AFTER_ONSET_SECONDS = 0.014;
const BEFORE_ONSET_SECONDS = 0.012;
const LONGEST_SECONDS = 4;
const SHORTEST_SECONDS = 0.15;
/** Modes fallen this far below the noise of their frames are forgotten. */
const FORGOTTEN_AMPLITUDE = 3e-6;
/** What keeps its power is bowed; what loses a little may be a first partial that beats slowly. */
const LONGEST_DECAY_SECONDS = 60;
const MOST_HOLD = 0.97;
const MOST_HOLD_ENDLESS = 0.85;
const MOST_HOLD_GROWING = 0.6;
/** A held sound is over where so little of its power is left just before the next beginning. */
const STILL_SECONDS = 0.06;
const STILL_HELD = 0.05;
/** Plucks this near may be of one string: a glide and the roughness of the first look are in it. */
const SAME_STRING_CENTS = 25;
/** A pitch that strays so far from the first look is a mistake. */
const ELSEWHERE_CENTS = 60;
const CENT = Math.LN2 / 1200;

/**
 * Reads the plucks of a take one after another: each moment at which something new begins, the new series of partials, and its
 * decaying sines; what rings on of it is carried on under the plucks after it.
 *
 * @param samples - one channel in the analysis band
 * @param targetsHz - where strings are meant to be
 */
export function readPlucks(
  samples: Float32Array,
  sampleRateHz: number,
  targetsHz: readonly number[],
  onProgress: (share: number) => void = () => {},
): PluckedSound {
  const onsets = findOnsets(samples, sampleRateHz);
  const first = readBetween(samples, sampleRateHz, targetsHz, onsets, onProgress);
  const beats = first.others.filter((other) => isBeat(other, first.plucks));
  if (beats.length === 0 || first.plucks.length === 0) return first;
  // Beats that looked like a beginning cut the pluck before them short.
  const isKept = (onset: number) => !beats.some(({ onsetSeconds }) => onsetSeconds === onset);
  return readBetween(samples, sampleRateHz, targetsHz, onsets.filter(isKept), onProgress);
}

/** True for what begins while a string rings and is either nothing that can be read or one of its own partials. */
function isBeat({ onsetSeconds, reason, frequencyHz }: OtherOnset, plucks: readonly Pluck[]): boolean {
  const ringing = plucks.filter(
    (pluck) => pluck.onsetSeconds < onsetSeconds && pluck.onsetSeconds > onsetSeconds - LONGEST_SECONDS,
  );
  if (ringing.length === 0) return false;
  if (reason !== "no-decay" || frequencyHz === null) return true;
  return ringing.some(({ modes }) =>
    modes.some((mode) => Math.abs(Math.log(mode.frequencyHz / frequencyHz)) < SAME_STRING_CENTS * CENT),
  );
}

function readBetween(
  samples: Float32Array,
  sampleRateHz: number,
  targetsHz: readonly number[],
  onsets: readonly number[],
  onProgress: (share: number) => void,
): PluckedSound {
  const at = (seconds: number) => Math.max(0, Math.min(samples.length, Math.round(seconds * sampleRateHz)));
  const stretch = (from: number, to: number) => Float64Array.from(samples.subarray(at(from), at(to)));
  const plucks: Pluck[] = [];
  const others: OtherOnset[] = [];
  let ringing: readonly RingingString[] = [];
  let ringingFrom = 0;
  let held: { readonly frequencyHz: number; readonly power: number } | null = null;
  let before: Float64Array = stretch(0, (onsets[0] ?? 0) - BEFORE_ONSET_SECONDS);
  for (const [k, onset] of onsets.entries()) {
    onProgress(k / onsets.length);
    const from = at(onset + AFTER_ONSET_SECONDS);
    const next = onsets[k + 1] ?? samples.length / sampleRateHz + BEFORE_ONSET_SECONDS;
    const to = at(Math.min(next - BEFORE_ONSET_SECONDS, onset + LONGEST_SECONDS));
    const startSeconds = from / sampleRateHz;
    const reject = (reason: OtherOnset["reason"], frequencyHz: number | null = null) =>
      others.push({ onsetSeconds: onset, reason, frequencyHz });
    if (to - from < SHORTEST_SECONDS * sampleRateHz) {
      reject("too-short");
      continue;
    }
    const still = ringing.flatMap(({ firstHz, modes }) => {
      const heard = modes
        .map((mode) => laterMode(mode, startSeconds - ringingFrom))
        .filter((mode) => Math.hypot(mode.re, mode.im) > FORGOTTEN_AMPLITUDE);
      return heard.length === 0 ? [] : [{ firstHz, modes: heard }];
    });
    const whole = Float64Array.from(samples.subarray(from, to));
    const fresh = whole.slice();
    for (const { modes } of still) {
      for (const mode of modes) addMode(fresh, sampleRateHz, mode, -1, { rise: 0, fadePerSecond: 1 });
    }
    const series = findSeries(
      before,
      fresh,
      sampleRateHz,
      targetsHz,
      still.flatMap(({ modes }) => modes),
    );
    const meanPower = (a: number, b: number) =>
      samples.subarray(a, b).reduce((sum, x) => sum + (x * x) / (b - a), 0);
    // A bowed sound that swells begins again and again, until it is over.
    if (held !== null && meanPower(Math.max(0, from - at(STILL_SECONDS)), from) < STILL_HELD * held.power)
      held = null;
    const isOfHeld = held !== null && series !== null && isPartialOf(series.frequencyHz, held.frequencyHz);
    const fitted = series === null || isOfHeld ? null : likeliestFit(whole, sampleRateHz, series, still);
    const pluck = fitted && pluckOf(fitted.fit, onset, startSeconds, (to - from) / sampleRateHz);
    const isThere =
      series !== null &&
      pluck !== null &&
      Math.abs(Math.log(pluck.frequencyHz / series.frequencyHz)) < ELSEWHERE_CENTS * CENT;
    if (fitted === null || pluck === null || !isThere || isHeld(pluck)) {
      const goesOn = isOfHeld || (isThere && pluck !== null);
      if (goesOn && held === null && series !== null) {
        held = { frequencyHz: series.frequencyHz, power: meanPower(from, to) };
      }
      reject(series === null ? "no-series" : goesOn ? "no-decay" : "weak", series?.frequencyHz ?? null);
      before = fresh;
      ringing = still;
      ringingFrom = startSeconds;
      continue;
    }
    const { fit, rang } = fitted;
    plucks.push(pluck);
    before = fit.rest;
    ringing = [...changed(rang, fit), { firstHz: pluck.frequencyHz, modes: pluck.modes }];
    ringingFrom = startSeconds;
  }
  return { plucks, others };
}

/** Strings that rang before, with the amplitudes that the fit gives them. */
function changed(rang: readonly RingingString[], { old }: PluckFit): RingingString[] {
  let next = 0;
  return rang.map(({ firstHz, modes }) => ({
    firstHz,
    modes: modes.map(() => {
      const { mode, re, im } = old[next++];
      return { ...mode, re: mode.re + re, im: mode.im + im };
    }),
  }));
}

/** True for a pitch that is one of the first partials of another. */
function isPartialOf(frequencyHz: number, firstHz: number): boolean {
  const number = Math.round(frequencyHz / firstHz);
  return (
    number >= 1 && number <= 4 && Math.abs(Math.log(frequencyHz / firstHz / number)) < ELSEWHERE_CENTS * CENT
  );
}

function isHeld({ decaySeconds, holdShare }: Pluck): boolean {
  if (decaySeconds < 0) return holdShare > MOST_HOLD_GROWING;
  return holdShare > (decaySeconds > LONGEST_DECAY_SECONDS ? MOST_HOLD_ENDLESS : MOST_HOLD);
}

/** A finger that plucks a string stops it first; another string of the same pitch rings on. Both are tried. */
function likeliestFit(
  samples: Float64Array,
  sampleRateHz: number,
  series: Series,
  still: readonly RingingString[],
): { fit: PluckFit; rang: readonly RingingString[] } {
  const isSame = ({ firstHz }: RingingString) =>
    Math.abs(Math.log(firstHz / series.frequencyHz)) < SAME_STRING_CENTS * CENT;
  const choices = [still, ...still.filter(isSame).map((one) => still.filter((other) => other !== one))];
  const fit = fitPluck(
    samples,
    sampleRateHz,
    series.numbersHz,
    choices.map((rang) => rang.flatMap(({ modes }) => modes)),
  );
  return { fit, rang: choices[fit.choice] };
}
