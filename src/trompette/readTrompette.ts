import type { AudioRecording } from "../audio/AudioRecording.js";
import { checkRecording } from "../audio/checkRecording.js";
import type { TimeSpan } from "../audio/findPauses.js";
import { refuseLonger } from "../audio/refuseLonger.js";
import { AnalysisError } from "../errors.js";
import type { AnalysisSegment } from "../partials/AnalysisSegment.js";
import type { PitchTrack } from "../pitch/PitchTrack.js";
import { soundingStretches } from "../pitch/soundingStretches.js";
import { median } from "../signal/median.js";
import { strongestChannel } from "../strings/strongestChannel.js";
import { surveyedTrack } from "../strings/surveyedTrack.js";
import { readBuzz } from "./readBuzz.js";
import type { TrompetteFinding, TrompetteOptions, TrompetteReading } from "./TrompetteReading.js";
import { trompetteFindings } from "./trompetteFindings.js";

const LONGEST_SECONDS = 600;
/** Slower or faster is no cranking. */
const TURNS: readonly [number, number] = [0.3, 4];
const TRACKING_SHARE = 0.5;
const MARGIN_SECONDS = 0.1;
/** A string is the one named within this of its target. */
const NEAR_CENTS = 150;
/** Of the frames with a pitch, so many must have that of the string for its pitch to be taken from them. */
const LEAST_SHARE = 0.3;
const LEAST_CLARITY = 0.5;
/** Sounds shorter than this are no take of a string. */
const LEAST_SECONDS = 1;

/** Of the recording checks what matters here. */
const NOT_ASKED: ReadonlySet<string> = new Set([
  "high-pass",
  "high-pass-open",
  "noise-unknown",
  "gain-control-open",
]);

/**
 * Reads a take of the trompette, the string over the loose buzzing bridge: whether and when it buzzes, how strongly against the drone's
 * own tone, how evenly, and what becomes of the pitch.
 *
 * The buzz is looked for above 1 kHz, in half-octave bands every 2 ms: sudden rises over what the same bands have without it. No more
 * is assumed of its nature (knocks once a period of the string, every second period, or noise). A sudden sound whose new power lies
 * below 1 kHz is a note, one that is over at once a knock; strokes are four or more of one colour, at a pace. The onset of each is where
 * its buzz is first heard (see `StrokeReading`) and comes with how near it is known, which for a faint buzz can be more than 10 ms; the
 * wheel's stroke before it is given beside it, and less sure.
 *
 * @throws AnalysisError `recording-empty`, `recording-silent`, `recording-not-finite`, and `value-out-of-range` for more than ten minutes, or
 * for turns that are none
 * @example
 * ```ts
 * const reading = readTrompette(openWav(source), { string: { name: "C4", frequencyHz: 261.63 } });
 * reading.state; // "strokes"
 * reading.strokes[0].onsetSeconds; // 3.412
 * ```
 */
export function readTrompette(recording: AudioRecording, options: TrompetteOptions): TrompetteReading {
  const { durationSeconds } = recording;
  refuseLonger(recording, LONGEST_SECONDS, "trompetteSeconds");
  checkTurns(options.turnsPerSecond);
  const progress = options.onProgress ?? (() => {});
  const { survey, track } = surveyedTrack(recording, (share) => progress(TRACKING_SHARE * share));
  const sounding = soundingStretches(track);
  const check = checkRecording(recording, survey, sounding);
  const ofRecording: TrompetteFinding[] = check.findings.filter(({ code }) => !NOT_ASKED.has(code));
  const stretches = sounding.filter(
    ({ startSeconds, endSeconds }) => endSeconds - startSeconds >= LEAST_SECONDS,
  );
  const segment = wholeSegment();
  const stringHz = heardHz(track, stretches, options);
  const buzz =
    segment === null || stringHz === null ? null : readBuzz(recording, segment, stretches, stringHz, options);
  progress(1);
  const reading = {
    durationSeconds,
    sampleRateHz: recording.sampleRateHz,
    channelCount: recording.channelCount,
    encoding: recording.encoding,
    string: options.string?.name ?? null,
    targetHz: options.string?.frequencyHz ?? null,
    ...(buzz ?? NOTHING),
  };
  return { ...reading, findings: [...ofRecording, ...trompetteFindings(reading, options)] };

  function wholeSegment(): AnalysisSegment | null {
    if (stretches.length === 0) return null;
    const span: TimeSpan = {
      startSeconds: stretches[0].startSeconds,
      endSeconds: stretches[stretches.length - 1].endSeconds,
    };
    return strongestChannel(recording, survey, span, MARGIN_SECONDS).segment;
  }
}

function checkTurns(given: number | undefined): void {
  const [allowedMinimum, allowedMaximum] = TURNS;
  if (given === undefined || (given >= allowedMinimum && given <= allowedMaximum)) return;
  throw new AnalysisError("value-out-of-range", {
    name: "turnsPerSecond",
    given,
    allowedMinimum,
    allowedMaximum,
  });
}

/** About where the string sounds: as it was heard, or its target where other strings hide it; null where there is nothing to go by. */
function heardHz(
  track: PitchTrack,
  stretches: readonly TimeSpan[],
  { string }: TrompetteOptions,
): number | null {
  if (stretches.length === 0) return null;
  const heard: number[] = [];
  for (const { startSeconds, endSeconds } of stretches) {
    for (let m = Math.ceil(startSeconds / track.hopSeconds); m < endSeconds / track.hopSeconds; m++) {
      if (track.frequencyHz[m] > 0 && track.clarity[m] >= LEAST_CLARITY) heard.push(track.frequencyHz[m]);
    }
  }
  if (string === null) return heard.length === 0 ? null : median(heard);
  const near = heard.filter((hz) => Math.abs(1200 * Math.log2(hz / string.frequencyHz)) < NEAR_CENTS);
  return near.length > LEAST_SHARE * heard.length && near.length > 0 ? median(near) : string.frequencyHz;
}

const NOTHING: ReturnType<typeof readBuzz> = {
  sounding: [],
  state: "none",
  doubt: null,
  band: null,
  soundingSeconds: 0,
  silentSeconds: 0,
  strokes: [],
  strengthAgainst: "own-tone",
  strengthDb: null,
  strengthSpreadDb: null,
  durationMeanSeconds: null,
  strokesPerSecond: null,
  timingSpreadSeconds: null,
  missedSeconds: [],
  turnsPerSecond: null,
  turnsInterval95: null,
  turnsBasis: null,
  turnRefusal: null,
  strokesPerTurn: null,
  silentPitch: null,
  buzzingPitch: null,
  differenceCents: null,
  pitchRefusal: null,
  possibleSeconds: [],
  otherSounds: [],
  upperShareDb: null,
};
