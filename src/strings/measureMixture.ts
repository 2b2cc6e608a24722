import type { AudioRecording } from "../audio/AudioRecording.js";
import type { Finding } from "../audio/Finding.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { readAnalysisBand } from "../audio/readAnalysisBand.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import { detectStrings } from "../partials/joint/detectStrings.js";
import { fitJointly, type JointFit } from "../partials/joint/fitJointly.js";
import { unexplainedLine } from "../partials/unexplainedLine.js";
import { findChanges } from "../pitch/findChanges.js";
import { averageSpectrum } from "../signal/averageSpectrum.js";
import { decimationFactor } from "../signal/Decimator.js";
import { nextPowerOfTwo } from "../signal/nextPowerOfTwo.js";
import { cents } from "../units/cents.js";
import type { MixedStrings } from "./MixedStrings.js";
import { pitchSteadiness } from "./pitchSteadiness.js";

interface Stretch {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** Attack, decay and the uncertainty of a change are cut off. */
const TRIM_START_SECONDS = 0.3;
const TRIM_END_SECONDS = 0.25;
/** Shorter parts hold too few beats to part strings that share partials. */
const LEAST_SECONDS = 1.5;
/** A longer part is cut, so that memory stays bounded. */
const LONGEST_SECONDS = 30;
/** Read beyond the stretch, so that a change close to its end is seen. */
const MARGIN_SECONDS = 1.3;
/** Detected strings were found within a cent or so. */
const FOUND_SPAN_CENTS = 8;
/** Two series must go through this many cycles against each other at their highest shared partial (our policy). */
const LEAST_CYCLES = 1.5;

/**
 * Reads the strings that sound together in a stretch: parts it where strings join or leave, finds out which sound in each
 * part, and fits them jointly.
 *
 * The pitch comes from the strongest channel; levels are scaled to the power mean of the channels.
 *
 * @param given - indices of the targets that may sound; null for all. Those of them that don't are left out.
 * @returns only parts in which two strings or more sound (or any number, where they were given)
 */
export function measureMixture(
  recording: AudioRecording,
  survey: RecordingSurvey,
  stretch: Stretch,
  targets: readonly StringTarget[],
  given: readonly number[] | null,
): MixedStrings[] {
  const { segment, levelScale } = strongestChannel(recording, survey, stretch);
  const changes = findChanges(segment.samples, segment.sampleRateHz, segment.firstSeconds);
  return parts(stretch, changes).flatMap(({ startSeconds, endSeconds }) => {
    const candidates = firstOfEqual(given ?? targets.map((_, index) => index), targets);
    const detected = detectStrings(
      segment,
      startSeconds,
      endSeconds,
      candidates.map((c) => targets[c].targetHz),
    );
    const found = detected.map(({ index, frequencyHz }) => ({ index: candidates[index], frequencyHz }));
    if (found.length < (given === null ? 2 : 1)) return [];
    const fits = fitJointly(
      segment,
      startSeconds,
      endSeconds,
      found.map(({ frequencyHz }) => frequencyHz),
      FOUND_SPAN_CENTS,
    );
    const line = otherLine(segment, startSeconds, endSeconds, fits);
    // With so much left unexplained the strings found are a guess, and so are the names that were given.
    if (line !== null && line.levelDb > UNEXPLAINED_DB) return [];
    const others: Finding[] =
      line !== null && line.levelDb > OTHER_SOUND_DB
        ? [{ code: "other-sound", severity: "warning", values: { ...line } }]
        : [];
    return [
      {
        startSeconds,
        endSeconds,
        hidden: (given ?? []).flatMap((index) =>
          !found.some((one) => one.index === index) && mayBeHidden(targets[index].targetHz, fits)
            ? [{ targetIndex: index, neededSeconds: UNFOLLOWED_FACTOR * (endSeconds - startSeconds) }]
            : [],
        ),
        strings: fits.map((fit, i) => ({
          targetIndex: found[i].index,
          course: fit.followed ? fit.course : null,
          neededSeconds: neededSeconds(fit, fits, endSeconds - startSeconds),
          reading: {
            startSeconds,
            endSeconds,
            frequencyHz: fit.frequencyHz,
            steadiness: fit.followed
              ? pitchSteadiness({ ...fit, startSeconds, endSeconds, steady: false, noiseErrorCents: 0 })
              : NOT_FOLLOWED,
            partials: fit.partials.map(({ number, power, signalToNoise }) => ({
              number,
              power: (power ?? 0) * levelScale,
              signalToNoise,
              shared: power === null,
            })),
            noisePower: null,
            frameCentroidHz: null,
            findings: fit.explainedShare < LEAST_EXPLAINED ? [SOMETHING_ELSE] : others,
          },
        })),
      },
    ];
  });
}

function parts({ startSeconds, endSeconds }: Stretch, changes: readonly number[]): Stretch[] {
  const edges = [startSeconds, ...changes.filter((at) => at > startSeconds && at < endSeconds), endSeconds];
  return edges.slice(1).flatMap((edge, i) => {
    const from = edges[i] + TRIM_START_SECONDS;
    const to = edge - TRIM_END_SECONDS;
    if (to - from < LEAST_SECONDS) return [];
    const count = Math.ceil((to - from) / LONGEST_SECONDS);
    return Array.from({ length: count }, (_, part) => ({
      startSeconds: from + ((to - from) * part) / count,
      endSeconds: from + ((to - from) * (part + 1)) / count,
    }));
  });
}

/** A string that is alone at its partials, or with others that are known, explains nearly all that is there. */
const LEAST_EXPLAINED = 0.9;
const SOMETHING_ELSE: Finding = { code: "other-sound", severity: "warning", values: {} };

const NOT_FOLLOWED = { interval95Cents: null, unsteadinessCents: null, swingCents: null, swingRateHz: null };

/** The strongest line that no partial of the strings found explains, against the power of the whole passage. */
function otherLine(
  { samples, sampleRateHz, firstSeconds }: AnalysisSegment,
  startSeconds: number,
  endSeconds: number,
  fits: readonly JointFit[],
) {
  const from = Math.max(0, Math.round((startSeconds - firstSeconds) * sampleRateHz));
  const part = samples.subarray(from, Math.round((endSeconds - firstSeconds) * sampleRateHz));
  const spectrum = averageSpectrum(part, sampleRateHz, nextPowerOfTwo(SPECTRUM_SECONDS * sampleRateHz));
  const total = spectrum.density.reduce((sum, density) => sum + density * spectrum.binHz, 0);
  return unexplainedLine(
    spectrum,
    fits.map(({ frequencyHz }) => frequencyHz),
    total,
    TYPICAL_UNSTEADINESS_CENTS,
  );
}

/** Of strings with all but the same target one can be told at a time: the first stands for them. */
function firstOfEqual(indices: readonly number[], targets: readonly StringTarget[]): number[] {
  return indices.filter((index, i) =>
    indices
      .slice(0, i)
      .every((earlier) => Math.abs(cents(targets[index].targetHz, targets[earlier].targetHz)) > EQUAL_CENTS),
  );
}

/** True for a string that was named but not found, all of whose lower partials may lie under those of the others. */
function mayBeHidden(targetHz: number, fits: readonly JointFit[]): boolean {
  return HIDING_NUMBERS.every((number) =>
    fits.some(({ frequencyHz }) => {
      const ratio = (number * targetHz) / frequencyHz;
      return Math.round(ratio) >= 1 && Math.abs(ratio / Math.round(ratio) - 1) < NEAR_SHARE;
    }),
  );
}

/** How long a take would part a string without partials of its own from the others; null where this one did. */
function neededSeconds(fit: JointFit, fits: readonly JointFit[], seconds: number): number | null {
  if (fit.hasOwnPartials) return null;
  const needed = fits.flatMap((other) => {
    if (other === fit) return [];
    const [low, high] = fit.frequencyHz < other.frequencyHz ? [fit, other] : [other, fit];
    // The lowest partials that meet, p of the lower string and q of the higher one.
    for (let q = 1; q <= 4; q++) {
      const p = Math.round((q * high.frequencyHz) / low.frequencyHz);
      const apartHz = Math.abs(p * low.frequencyHz - q * high.frequencyHz);
      if (apartHz > NEAR_SHARE * q * high.frequencyHz) continue;
      const meetings = Math.max(1, Math.floor(fit.partials.length / (fit === low ? p : q)));
      return [LEAST_CYCLES / Math.max(meetings * apartHz, 1e-6)];
    }
    return [];
  });
  const longest = Math.max(0, ...needed);
  if (longest > seconds) return longest;
  // Not even its movement could be followed: the estimate of how far apart they are is then no good either.
  return fit.followed ? null : UNFOLLOWED_FACTOR * seconds;
}

const SPECTRUM_SECONDS = 0.5;
/** Wheel swing of 4 cents has this standard deviation. */
const TYPICAL_UNSTEADINESS_CENTS = 3;
/** A line this strong belongs to a string that was not found; a weaker one is told. */
const UNEXPLAINED_DB = -13;
const OTHER_SOUND_DB = -26;
/** Tempered and pure targets of one note lie up to 22 cents apart. */
const EQUAL_CENTS = 30;
/** Partials whose place tells whether a string can hide under others. */
const HIDING_NUMBERS = [1, 2, 3, 4, 5];
/** How much longer a passage should be where a string could not be followed. */
const UNFOLLOWED_FACTOR = 2;
/** Partials further apart than this share of their frequency don't meet. */
const NEAR_SHARE = 0.03;

function strongestChannel(recording: AudioRecording, survey: RecordingSurvey, stretch: Stretch) {
  const sampleRateHz = recording.sampleRateHz / decimationFactor(recording.sampleRateHz);
  const first = Math.max(0, Math.round((stretch.startSeconds - MARGIN_SECONDS) * sampleRateHz));
  const firstSeconds = first / sampleRateHz;
  const span = { startSeconds: firstSeconds, endSeconds: stretch.endSeconds + MARGIN_SECONDS };
  const channels = readAnalysisBand(recording, survey, span);
  const powers = channels.map((samples) => samples.reduce((sum, value) => sum + value * value, 0));
  const strongest = powers.indexOf(Math.max(...powers));
  const mean = powers.reduce((sum, power) => sum + power, 0) / powers.length;
  const segment: AnalysisSegment = { samples: channels[strongest], sampleRateHz, firstSeconds };
  return { segment, levelScale: powers[strongest] > 0 ? mean / powers[strongest] : 1 };
}
