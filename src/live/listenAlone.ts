import { FIT_MARGIN_SECONDS } from "../partials/fitHarmonics.js";
import { measurePassage } from "../strings/measurePassage.js";
import { shiftByCents } from "../units/cents.js";
import type { HeardSound } from "./HeardSound.js";
import { levelOf } from "./levelOf.js";
import type { RecentBand } from "./RecentBand.js";
import type { PitchRun } from "./soundNow.js";

/** A steady string is read from so much of the past. */
const LONGEST_SECONDS = 4;
/** Less than this holds too little of a low string for a fit. */
const LEAST_SECONDS = 0.15;
/** Attack and decay are cut off; of a sound that has just begun less, so that it is shown soon. */
const TRIM_START_SECONDS = 0.2;
const SHORT_TRIM_SECONDS = 0.06;
const SHORT_SECONDS = 0.7;
const TRIM_END_SECONDS = 0.15;
/** The fit reads so much beyond the passage; the band ends with the newest samples. */
const MARGIN_SECONDS = FIT_MARGIN_SECONDS + 0.005;
/** In less than this the swing of the wheel looks like a pitch that stands: no interval can be had. */
const LEAST_INTERVAL_SECONDS = 1.25;

/** What was read: one string, several at once, or nothing that could be followed. */
export type HeardAlone = HeardSound | "several" | null;

/**
 * Reads the last seconds of a run of one pitch as one string, with the same fit and octave check as a whole take is.
 *
 * @param isNow - whether it goes on; else its end is cut off
 * @param notBeforeSeconds - what lies before can't be used
 */
export function listenAlone(
  band: RecentBand,
  run: PitchRun,
  isNow: boolean,
  notBeforeSeconds: number,
  humFrequenciesHz: readonly number[],
): HeardAlone {
  const bandEnd = band.end / band.rateHz - MARGIN_SECONDS;
  const isWhole = isNow && run.steadyEndSeconds === run.endSeconds;
  const endSeconds = Math.min(bandEnd, isWhole ? run.endSeconds : run.steadyEndSeconds - TRIM_END_SECONDS);
  const isShort = endSeconds - run.steadyStartSeconds < SHORT_SECONDS;
  const startSeconds = Math.max(
    notBeforeSeconds,
    run.steadyStartSeconds + (isShort ? SHORT_TRIM_SECONDS : TRIM_START_SECONDS),
    endSeconds - Math.min(LONGEST_SECONDS, run.newest.seconds),
  );
  if (endSeconds - startSeconds < LEAST_SECONDS) return null;
  const { recording, survey, firstSeconds } = band.stretch(
    startSeconds - MARGIN_SECONDS,
    endSeconds + MARGIN_SECONDS,
  );
  const passage = { startSeconds: startSeconds - firstSeconds, endSeconds: endSeconds - firstSeconds };
  const read = measurePassage(
    recording,
    survey,
    {
      ...passage,
      soundStartSeconds: passage.startSeconds,
      soundEndSeconds: passage.endSeconds,
      frequencyHz: run.frequencyHz,
    },
    humFrequenciesHz,
  );
  if (read === null) return null;
  if ("togetherHz" in read || read.findings.some(({ code }) => code === "several-strings")) return "several";
  const { isMoving } = run.newest;
  const isLong = endSeconds - startSeconds >= LEAST_INTERVAL_SECONDS;
  const interval = isMoving || !isLong ? null : read.steadiness.interval95Cents;
  // The swing of the wheel, of which a short window holds no whole turns, is not in the middle of the interval.
  const offCents = interval === null ? 0 : (interval[0] + interval[1]) / 2;
  return {
    startSeconds,
    endSeconds,
    frequencyHz: shiftByCents(read.frequencyHz, offCents),
    interval95Cents: interval === null ? null : [interval[0] - offCents, interval[1] - offCents],
    lack: interval !== null ? null : isMoving ? "moving" : "too-short",
    isMoving,
    levelDb: levelOf(read.partials),
    isTogether: false,
    // Every window here is short against a take.
    findings: read.findings.filter(({ code }) => code !== "short-passage"),
  };
}
