import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording, type RecordingCheck } from "../audio/checkRecording.js";
import type { Finding } from "../audio/Finding.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import { findPassages } from "../pitch/findPassages.js";
import type { PitchTrack } from "../pitch/PitchTrack.js";
import type { SteadyPassage } from "../pitch/SteadyPassage.js";
import { soundingStretches } from "../pitch/soundingStretches.js";
import type { MeasuredPassage, MixedPassage } from "../strings/MeasuredPassage.js";
import type { ForeignSound, MixedStrings, TwinSound } from "../strings/MixedStrings.js";
import { pairsInTurn } from "../strings/pairsInTurn.js";
import { pairsTogether } from "../strings/pairsTogether.js";
import type { PairReading, StringReading } from "../strings/StringReading.js";
import { standingMixtures } from "../strings/standingMixtures.js";
import { surveyedTrack } from "../strings/surveyedTrack.js";
import { askFirst } from "./askFirst.js";
import { checkLowEdge } from "./checkLowEdge.js";
import { checkTurns } from "./checkTurns.js";
import { humPassages, withoutStretches } from "./humPassages.js";
import { isClean } from "./isClean.js";
import type { MeasureOptions } from "./MeasureOptions.js";
import { nameStrings } from "./nameStrings.js";
import { readTogether } from "./readTogether.js";
import type { SecondReader } from "./SecondReader.js";
import type { TakeReading } from "./TakeReading.js";
import { takeBody } from "./takeBody.js";
import { takeLowRegister } from "./takeLowRegister.js";
import { takeReference } from "./takeReference.js";
import { takeSounds } from "./takeSounds.js";
import { takeWheel } from "./takeWheel.js";
import { unreadStretches } from "./unreadStretches.js";
import { withKnownNames } from "./withKnownNames.js";
import { workOn } from "./workOn.js";

/** Pieces of one sound lie closer than this. */
const LARGEST_GAP_SECONDS = 1.5;
/** Share of the work that the pass over all samples takes; the rest is the passages. */
const TRACKING_SHARE = 0.7;

/**
 * Reads one take: strings bowed one after another in any order, or several at once.
 *
 * Several at once are told apart where an instrument or a tuning names the strings; without one they are a finding.
 *
 * @param second - another thread that reads along; the reading is the same without it
 * @throws AnalysisError `recording-empty`, `recording-silent` or `recording-not-finite`; `string-unknown` or
 * `string-repeated` where `order`, `sounding` or `anchor` names a string that is none of the targets, or one twice; `value-out-of-range` for the low edge or the turns
 * @example
 * ```ts
 * const targets = stringTargets(findTuning("soprano"), {});
 * const reading = measureTake(openWav(source), { targets, a4Hz: 440 });
 * reading.strings[0].deviationCents; // -3.2
 * ```
 */
export function measureTake(
  recording: AudioRecording,
  given: MeasureOptions,
  second: SecondReader | null = null,
): TakeReading {
  const options = withKnownNames(given);
  checkLowEdge(options.lowEdgeHz);
  checkTurns(options.turnsPerSecond);
  let told = 0;
  const progress = (share: number) => {
    if (share <= told) return;
    told = share;
    options.onProgress?.(share);
  };
  const { survey, track } = surveyedTrack(recording, (share) => progress(TRACKING_SHARE * share), second);

  const { targets } = options;
  let [done, expected] = [0, Number.POSITIVE_INFINITY];
  const work = workOn({ recording, survey, targets }, second, () => {
    // How many jobs there will be shows only as they are done: two or three a passage.
    done++;
    progress(1 - (1 - TRACKING_SHARE) / (1 + (3 * done) / expected));
  });
  const allSounding = soundingStretches(track);
  const checked = work.begin("check", allSounding);
  const found = findPassages(track).filter((passage) => isClean(passage, survey));
  const { check, passages, sounding } = listen(recording, survey, track, found, allSounding, checked);
  expected = Math.max(1, passages.length);
  const findings: Finding[] = [...check.findings];
  const measured: MeasuredPassage[] = [];
  const mixed: MixedPassage[] = [];
  const { humFrequenciesHz } = check;
  const first = askFirst(survey, sounding, passages, options, humFrequenciesHz, work);
  const isTaken = (passage: SteadyPassage) =>
    first.mixtures.some(
      (one) => one.startSeconds < passage.endSeconds && one.endSeconds > passage.startSeconds,
    );
  const toRead = passages.filter((passage) => !isTaken(passage));
  for (const read of work.all(
    "passage",
    toRead.map((passage) => ({ passage, humFrequenciesHz })),
  )) {
    if (read !== null && "togetherHz" in read) mixed.push(read);
    else if (read !== null) measured.push(read);
  }
  const readSoFar = () => [
    ...measured,
    ...[...mixed, ...first.mixtures].map((one) => ({ ...one, frequencyHz: null })),
  ];
  const together = readTogether(
    survey,
    sounding,
    { measured, mixed, unread: unreadStretches(sounding, readSoFar(), track), first },
    options,
    humFrequenciesHz,
    work,
  );
  const { mixtures, twins } = together;
  findings.push(...mergedPassages(together.mixed).map(togetherFinding));
  const read = [
    ...together.measured,
    ...[...together.mixed, ...mixtures, ...twins].map((one) => ({ ...one, frequencyHz: null })),
  ];
  findings.push(...twins.map(twinFinding), ...together.foreign.map(foreignFinding));
  findings.push(...together.changing.map(changingFinding));
  findings.push(...unreadStretches(sounding, read, track).map(unreadFinding));
  if (together.measured.length + mixtures.length + twins.length === 0) {
    findings.push({ code: "no-passage", severity: "problem", values: {} });
  }

  if (options.order !== undefined && mixtures.length > 0) {
    findings.push({
      code: "order-unused",
      severity: "warning",
      values: { strings: options.order.join(", ") },
    });
  }

  const named = nameStrings(together.measured, mixtures, options, together.moves);
  const pairs = allPairs(named.strings, standingMixtures(mixtures, together.moves), options);
  const reference = takeReference(named.strings, pairs, options);
  const { strings } = reference;
  const sounds = takeSounds(strings, together.measured, mixtures, options.targets);
  const wheel = takeWheel(strings, together.measured, mixtures, options, work);
  progress(1);
  return {
    sampleRateHz: recording.sampleRateHz,
    channelCount: recording.channelCount,
    encoding: recording.encoding,
    durationSeconds: recording.durationSeconds,
    passages: [...together.measured, ...mixtures]
      .sort((a, b) => a.startSeconds - b.startSeconds)
      .map(({ startSeconds, endSeconds }) => ({
        startSeconds,
        endSeconds,
        strings: strings
          .filter((string) => string.perPassage.some((passage) => passage.startSeconds === startSeconds))
          .map(({ name }) => name),
      })),
    strings,
    pairs,
    referencePitch: reference.referencePitch,
    sounds,
    wheel,
    lowRegister: takeLowRegister(sounds, options.lowEdgeHz),
    body: takeBody([strings], options.lowEdgeHz),
    findings: [...findings, ...named.findings, ...reference.findings],
  };
}

/** Pairs as they were measured together, and worked out for those that did not sound together. */
function allPairs(
  strings: readonly StringReading[],
  mixtures: readonly MixedStrings[],
  { targets }: MeasureOptions,
): PairReading[] {
  const together = targets === null ? [] : pairsTogether(mixtures, targets);
  const isThere = ({ lower, upper }: PairReading) =>
    together.some((pair) => [lower, upper].every((name) => name === pair.lower || name === pair.upper));
  return [...together, ...pairsInTurn(strings).filter((pair) => !isThere(pair))];
}

/** One sound with several strings comes in pieces where their beats fade it; it is one thing to tell. */
function mergedPassages(mixed: readonly MixedPassage[]): MixedPassage[] {
  const merged: MixedPassage[] = [];
  for (const one of mixed) {
    const last = merged.at(-1);
    if (last !== undefined && one.startSeconds - last.endSeconds <= LARGEST_GAP_SECONDS) {
      merged[merged.length - 1] = { ...last, endSeconds: one.endSeconds };
    } else {
      merged.push(one);
    }
  }
  return merged;
}

function unreadFinding({ startSeconds, endSeconds }: { startSeconds: number; endSeconds: number }): Finding {
  const durationSeconds = endSeconds - startSeconds;
  return {
    code: "unread-stretch",
    severity: "warning",
    values: { startSeconds, endSeconds, durationSeconds },
  };
}

function foreignFinding(sound: ForeignSound): Finding {
  return { code: "foreign-sound", severity: "warning", values: { ...sound } };
}

function changingFinding(sound: ForeignSound): Finding {
  return { code: "changing-sound", severity: "warning", values: { ...sound } };
}

function twinFinding(twin: TwinSound): Finding {
  return { code: "twin-strings", severity: "warning", values: { ...twin } };
}

/**
 * Checks the recording, and takes hum that is loud enough to pass for a string out of the passages.
 *
 * @param checked - gives the check against all that sounds, which is begun already
 */
function listen(
  recording: AudioRecording,
  survey: RecordingSurvey,
  track: PitchTrack,
  passages: readonly SteadyPassage[],
  sounding: readonly TimeSpan[],
  checked: () => RecordingCheck,
) {
  const perhapsHum = humPassages(passages, track);
  if (perhapsHum.length > 0) {
    const cut = perhapsHum.map(({ soundStartSeconds, soundEndSeconds }) => ({
      startSeconds: soundStartSeconds,
      endSeconds: soundEndSeconds,
    }));
    const withoutIt = withoutStretches(sounding, cut);
    const check = checkRecording(recording, survey, withoutIt);
    if (check.humFrequenciesHz.length > 0) {
      return { check, passages: passages.filter((one) => !perhapsHum.includes(one)), sounding: withoutIt };
    }
  }
  return { check: checked(), passages, sounding };
}

function togetherFinding({ startSeconds, endSeconds, togetherHz }: MixedPassage): Finding {
  return {
    code: "several-strings",
    severity: "warning",
    values: { startSeconds, endSeconds, lowerHz: togetherHz[0], upperHz: togetherHz[1] },
  };
}
