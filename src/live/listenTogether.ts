import type { StringTarget } from "../instrument/Instrument.js";
import type { PitchIntegral } from "../partials/HarmonicFit.js";
import type { StringInMixture } from "../strings/MixedStrings.js";
import { readMixturePart } from "../strings/readMixturePart.js";
import { strongestChannel } from "../strings/strongestChannel.js";
import { shiftByCents } from "../units/cents.js";
import type { HeardSound } from "./HeardSound.js";
import { levelOf } from "./levelOf.js";
import { MEAN_SECONDS, MEAN_STEP_SECONDS, newestPitch } from "./newestPitch.js";
import type { RecentBand } from "./RecentBand.js";

/** Read beyond both ends, where there is something. */
const MARGIN_SECONDS = 0.1;

/** One of the strings that sound together. */
export interface HeardTogether {
  /** Index into the targets. */
  readonly targetIndex: number;
  readonly sound: HeardSound;
}

/** Several strings as they were told apart. */
export interface HeardMixture {
  readonly strings: readonly HeardTogether[];
  /** True where nothing is left that no string explains, so that it is surer than a reading as one string. */
  readonly isSure: boolean;
  /** True where a string sounds in a part of the window only: one has joined or left in it. */
  readonly hasChanged: boolean;
  /** The shortest window that would tell those apart that were not; null where all were. */
  readonly neededSeconds: number | null;
}

/**
 * Reads the strings that sound together in a window.
 *
 * @returns null where fewer than two were found, or where much is left that none of them explains
 */
export function listenTogether(
  band: RecentBand,
  startSeconds: number,
  endSeconds: number,
  targets: readonly StringTarget[],
  humFrequenciesHz: readonly number[],
): HeardMixture | null {
  const { recording, survey, firstSeconds } = band.stretch(
    startSeconds - MARGIN_SECONDS,
    endSeconds + MARGIN_SECONDS,
  );
  const part = { startSeconds: startSeconds - firstSeconds, endSeconds: endSeconds - firstSeconds };
  const channel = strongestChannel(recording, survey, part, MARGIN_SECONDS);
  const { mixed } = readMixturePart(channel, part, targets, null, humFrequenciesHz);
  if (mixed === null) return null;
  const known = mixed.strings.filter(({ isGuess }) => !isGuess);
  if (known.length < 2) return null;
  const needed = known.flatMap(({ neededSeconds }) => neededSeconds ?? []);
  return {
    strings: known.map((string) => ({
      targetIndex: string.targetIndex,
      sound: soundOf(string, startSeconds, endSeconds),
    })),
    isSure:
      known.length === mixed.strings.length && known.every(({ reading }) => reading.findings.length === 0),
    hasChanged: known.length < mixed.strings.length,
    neededSeconds: needed.length === 0 ? null : Math.min(...needed),
  };
}

function soundOf(
  { reading, course, neededSeconds }: StringInMixture,
  startSeconds: number,
  endSeconds: number,
): HeardSound {
  const known = {
    endSeconds,
    levelDb: levelOf(reading.partials),
    isTogether: true,
    findings: reading.findings,
  };
  if (neededSeconds !== null) {
    return {
      ...known,
      startSeconds,
      frequencyHz: null,
      interval95Cents: null,
      lack: "not-separable",
      isMoving: false,
    };
  }
  const newest = course === null ? null : newestPitch(meansOf(course));
  if (course === null || newest === null || !Number.isFinite(newest.seconds)) {
    const { interval95Cents } = reading.steadiness;
    return {
      ...known,
      startSeconds,
      frequencyHz: reading.frequencyHz,
      interval95Cents,
      lack: interval95Cents !== null ? null : course === null ? "not-followed" : "too-short",
      isMoving: false,
    };
  }
  const frames = Math.round(newest.seconds / course.hopSeconds);
  return {
    ...known,
    startSeconds: endSeconds - newest.seconds,
    frequencyHz: shiftByCents(reading.frequencyHz, lastMean(course, 0, frames)),
    interval95Cents: null,
    lack: newest.isMoving ? "moving" : "too-short",
    isMoving: newest.isMoving,
  };
}

/** Means of the course, newest first. */
function meansOf(course: PitchIntegral): number[] {
  const span = Math.round(MEAN_SECONDS / course.hopSeconds);
  const step = Math.round(MEAN_STEP_SECONDS / course.hopSeconds);
  const means: number[] = [];
  for (let back = 0; back + span < course.centSeconds.length; back += step) {
    means.push(lastMean(course, back, span));
  }
  return means;
}

/** Mean over `span` frames that end `back` frames before the end. */
function lastMean({ centSeconds, hopSeconds }: PitchIntegral, back: number, span: number): number {
  const end = centSeconds.length - 1 - back;
  const start = Math.max(0, end - span);
  return (centSeconds[end] - centSeconds[start]) / ((end - start) * hopSeconds);
}
