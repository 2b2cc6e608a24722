import type { AudioRecording } from "../audio/AudioRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { median } from "../signal/median.js";
import { meanInterval } from "../statistics/meanInterval.js";
import type { BandCourse } from "./BandCourse.js";
import { buzzProfile } from "./buzzProfile.js";
import { evenness } from "./evenness.js";
import { type FoundStroke, findStrokes } from "./findStrokes.js";
import type { HeardOnset } from "./firstKnocks.js";
import { firstRises } from "./firstRises.js";
import { heardOnsets } from "./heardOnsets.js";
import { BUZZ_FROM_HZ, readBands } from "./readBands.js";
import { readPitches } from "./readPitches.js";
import { silentSpans } from "./silentSpans.js";
import { sortSounds } from "./sortSounds.js";
import { spreadOf } from "./spreadOf.js";
import type {
  BuzzState,
  StrokeMean,
  StrokeReading,
  TrompetteOptions,
  TrompetteReading,
} from "./TrompetteReading.js";
import { upperBands } from "./upperBands.js";

/** Beyond an ideal bowed string's power above 1 kHz by this much, and it may be a buzz that never stops. */
const BEYOND_BOWED_DB = 8;
const WEAK_DB = 6;
/** Less than 40 dB under the tone is not to be measured beside it. */
const LEAST_ADDED = 1e-4;
const QUIET_STEP_SECONDS = 0.1;
type BuzzFields = Omit<
  TrompetteReading,
  "durationSeconds" | "sampleRateHz" | "channelCount" | "encoding" | "string" | "targetHz" | "findings"
>;

/**
 * What the sounding stretches of a take say about the buzz.
 *
 * @param segment - the strongest channel over all of the stretches, decimated
 * @param nearHz - about where the string sounds
 */
export function readBuzz(
  recording: AudioRecording,
  segment: AnalysisSegment,
  stretches: readonly TimeSpan[],
  nearHz: number,
  options: TrompetteOptions,
): BuzzFields {
  const course = readBands(recording, stretches, nearHz);
  const sounds = soundsOf(course, nearHz);
  const { strokes: alike, doubt, others } = sortSounds(sounds, segment, quietMoments(course, sounds));
  const isShown = doubt === null;
  const found = isShown ? alike : [];
  const silent = silentSpans(course, alike);
  const upperShareDb = upperShare(course, silent);
  const state: BuzzState = isShown
    ? "strokes"
    : (upperShareDb ?? Number.NEGATIVE_INFINITY) > bowedShareDb(nearHz) + BEYOND_BOWED_DB
      ? "continuous"
      : alike.length > 0
        ? "unclear"
        : "none";
  const pitches = readPitches(segment, stretches, silent, found, nearHz, options);
  const heard = found.length === 0 ? [] : heardOnsets(recording, course.bands, found, nearHz);
  const strokes = strokeReadings(found, heard, toneWithoutBuzz(course, silent), nearHz);
  const strengths = known(strokes.map(({ strengthDb }) => strengthDb));
  const { strokesPerSecond, timingSpreadSeconds, missedSeconds } = evenness(
    strokes.map(({ strokeSeconds }) => strokeSeconds),
  );
  const { turnsPerSecond, interval95, basis, refusal } = pitches.turns;
  return {
    sounding: pitches.sounding,
    state,
    doubt: state === "unclear" ? doubt : null,
    band:
      course.bands.length === 0 ? null : [course.bands[0].fromHz, course.bands[course.bands.length - 1].toHz],
    soundingSeconds: course.isHeard.reduce((sum, heard) => sum + heard, 0) * course.hopSeconds,
    silentSeconds: silent.reduce((sum, { startSeconds, endSeconds }) => sum + endSeconds - startSeconds, 0),
    strokes,
    strengthAgainst: pitches.sounding.length > 0 ? "all-strings" : "own-tone",
    strengthDb: meanOf(strengths),
    strengthSpreadDb: spreadOf(strengths),
    durationMeanSeconds: meanOf(strokes.map(({ durationSeconds }) => durationSeconds)),
    strokesPerSecond,
    timingSpreadSeconds,
    missedSeconds,
    turnsPerSecond,
    turnsInterval95: interval95,
    turnsBasis: basis,
    turnRefusal: isShown ? refusal : "no-strokes",
    strokesPerTurn:
      strokesPerSecond === null || turnsPerSecond === null ? null : strokesPerSecond / turnsPerSecond,
    silentPitch: pitches.silentPitch,
    buzzingPitch: pitches.buzzingPitch,
    differenceCents: pitches.differenceCents,
    pitchRefusal: pitches.refusal,
    possibleSeconds: state === "unclear" ? alike.map(({ onsetSeconds }) => onsetSeconds) : [],
    otherSounds: others,
    upperShareDb,
  };
}

/** All sudden sounds: found roughly first, then again in the bands that they have shown to matter. */
function soundsOf(course: BandCourse, stringHz: number): FoundStroke[] {
  if (course.bands.length === 0) return [];
  const first = upperBands(course, null);
  const rises = firstRises(first);
  if (rises.length === 0) return [];
  const profile = buzzProfile(first, rises);
  return findStrokes(upperBands(course, profile.isQuiet), profile, stringHz);
}

/**
 * Power above 1 kHz over that below of an ideally bowed string, partial n at 1/n (Cremer, The Physics of the Violin; from memory).
 */
function bowedShareDb(stringHz: number): number {
  const all = Math.PI ** 2 / 6;
  let below = 0;
  for (let n = 1; n * stringHz <= BUZZ_FROM_HZ; n++) below += n ** -2;
  return 10 * Math.log10((all - below) / Math.max(below, 1e-3));
}

/** Moments well within the silence, evenly spread. */
function quietMoments(course: BandCourse, sounds: readonly FoundStroke[]): number[] {
  const spans = silentSpans(course, sounds);
  return spans.flatMap(({ startSeconds, endSeconds }) => {
    const count = Math.floor((endSeconds - startSeconds - QUIET_STEP_SECONDS) / QUIET_STEP_SECONDS);
    return Array.from({ length: Math.max(0, count) }, (_, i) => startSeconds + (i + 1) * QUIET_STEP_SECONDS);
  });
}

function strokeReadings(
  found: readonly FoundStroke[],
  heard: readonly HeardOnset[],
  tone: number | null,
  stringHz: number,
): StrokeReading[] {
  const strengths = found.map(({ addedPower }) => {
    const added = addedPower.reduce((sum, power) => sum + power, 0);
    return tone === null || !(added > LEAST_ADDED * tone) ? null : 10 * Math.log10(added / tone);
  });
  const usual = median(known(strengths));
  return found.map((stroke, i) => ({
    ...heard[i],
    ...wheelStroke(stroke, heard[i], stringHz),
    durationSeconds: Math.max(0, stroke.endSeconds - heard[i].onsetSeconds),
    strengthDb: strengths[i],
    isWeak: (strengths[i] ?? Number.NEGATIVE_INFINITY) < usual - WEAK_DB,
  }));
}

/**
 * When the wrist struck: as the rise of the smoothed buzz shows it. The buzz is the wheel's answer, so where it is heard clearly before
 * that (other sounds hid its rise), the stroke came no later.
 */
function wheelStroke(
  { onsetSeconds, withinSeconds }: FoundStroke,
  heard: HeardOnset,
  stringHz: number,
): { strokeSeconds: number; strokeWithinSeconds: number } {
  const isLate = onsetSeconds > heard.onsetSeconds + heard.withinSeconds;
  if (!isLate) return { strokeSeconds: onsetSeconds, strokeWithinSeconds: withinSeconds };
  const half = 1 / stringHz / 2;
  return {
    strokeSeconds: heard.onsetSeconds - half,
    strokeWithinSeconds: Math.hypot(heard.withinSeconds, half),
  };
}

function known(values: readonly (number | null)[]): number[] {
  return values.filter((value) => value !== null);
}

function meanOf(values: readonly number[]): StrokeMean | null {
  if (values.length === 0) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const half = meanInterval(values)?.halfWidth ?? null;
  return { mean, interval95: half === null ? null : [mean - half, mean + half] };
}

/** Mean power where nothing buzzes, or, where it never stops, of the tenth with the least power above 1 kHz. */
function toneWithoutBuzz(course: BandCourse, silent: readonly TimeSpan[]): number | null {
  return powers(course, silent)?.whole ?? null;
}

function upperShare(course: BandCourse, silent: readonly TimeSpan[]): number | null {
  const found = powers(course, silent);
  if (found === null || !(found.upper > 0) || !(found.whole > found.upper)) return null;
  return 10 * Math.log10(found.upper / (found.whole - found.upper));
}

function powers(
  { bands, lowerPower, firstSeconds, hopSeconds, count, isHeard }: BandCourse,
  silent: readonly TimeSpan[],
) {
  const frames: number[] = [];
  for (const { startSeconds, endSeconds } of silent) {
    const to = Math.min(count, Math.round((endSeconds - firstSeconds) / hopSeconds));
    for (let m = Math.round((startSeconds - firstSeconds) / hopSeconds); m < to; m++) frames.push(m);
  }
  const upperAt = (m: number) => bands.reduce((sum, { power }) => sum + power[m], 0);
  if (frames.length === 0) {
    const heard = Array.from({ length: count }, (_, m) => m).filter((m) => isHeard[m] === 1);
    frames.push(...heard.sort((a, b) => upperAt(a) - upperAt(b)).slice(0, Math.ceil(heard.length / 10)));
  }
  if (frames.length === 0) return null;
  const upper = frames.reduce((sum, m) => sum + upperAt(m), 0) / frames.length;
  return { upper, whole: upper + frames.reduce((sum, m) => sum + lowerPower[m], 0) / frames.length };
}
