import type { FindingCode } from "../audio/Finding.js";
import type { TimeSpan } from "../audio/findPauses.js";
import type { RecordingSurvey } from "../audio/RecordingSurvey.js";
import type { StringTarget } from "../instrument/Instrument.js";
import type { MeasuredPassage, MixedPassage } from "../strings/MeasuredPassage.js";
import type { ForeignSound, MixedStrings, StringMove, TwinSound } from "../strings/MixedStrings.js";
import { stringMoves } from "../strings/stringMoves.js";
import type { AskedFirst } from "./askFirst.js";
import { isClean } from "./isClean.js";
import type { MeasureOptions } from "./MeasureOptions.js";
import { readMixtures } from "./readMixtures.js";
import { sureReading } from "./sureReading.js";
import type { Work } from "./Work.js";

/** What was read of a take so far, one string at a time. */
export interface ReadAlone {
  readonly measured: readonly MeasuredPassage[];
  readonly mixed: readonly MixedPassage[];
  /** Stretches in which something sounds that was not read. */
  readonly unread: readonly TimeSpan[];
  /** What was asked for several strings before. */
  readonly first: AskedFirst;
}

/** What is left of that, and what several strings at once gave. */
export interface ReadTogether {
  readonly measured: readonly MeasuredPassage[];
  readonly mixed: readonly MixedPassage[];
  readonly mixtures: readonly MixedStrings[];
  /** Two strings of nearly one pitch where the instrument has one: not read, but known for what they are. */
  readonly twins: readonly TwinSound[];
  /** Why stretches that stay unread do: a sound that is none of the strings. */
  readonly foreign: readonly ForeignSound[];
  readonly changing: readonly ForeignSound[];
  readonly moves: readonly StringMove[];
}

/** A passage read as one string, and found to be this, may hold more than one. */
const DOUBTS: readonly FindingCode[] = ["several-strings", "other-sound", "octave-doubt"];
/** A passage reaches this far beyond its trimmed ends. */
const REACH_SECONDS = 0.5;
/** Two moves of a string lie further apart than this, or are one. */
const APART_SECONDS = 2;

/**
 * Reads the stretches of a take in which several strings sound: those that gave no reading or a doubtful one, or all of
 * them where the strings that sound were named. A passage that the joint reading explains replaces its single one.
 *
 * @param sounding - all stretches in which something sounds
 */
export function readTogether(
  survey: RecordingSurvey,
  sounding: readonly TimeSpan[],
  alone: ReadAlone,
  options: MeasureOptions,
  humFrequenciesHz: readonly number[],
  work: Work,
): ReadTogether {
  const { targets, sounding: names } = options;
  if (targets === null) {
    const { measured, mixed } = alone;
    return { measured, mixed, mixtures: [], twins: [], foreign: [], changing: [], moves: [] };
  }
  const given = names?.map((name) => targets.findIndex((target) => target.name === name)) ?? null;
  const stretches = (given === null ? doubtful(sounding, alone) : sounding).filter((stretch) =>
    isClean(stretch, survey),
  );
  const readings = readMixtures(stretches, given, true, humFrequenciesHz, work).map((reading, i) => ({
    stretch: stretches[i],
    ...reading,
  }));
  const first = readings.flatMap((reading) => reading.mixtures);
  const twins = readings.flatMap((reading) => reading.twins);
  // A doubtful stretch reaches beyond its passage, and may reach into where a string has left: once more without that.
  const isLeft = (one: MeasuredPassage) => !isUndoubted(one) && isFree(one, [...first, ...twins]);
  const toAsk =
    given === null
      ? alone.measured.filter((one) => (isUndoubted(one) && !wasAsked(one, alone.first)) || isLeft(one))
      : [];
  const again = readMixtures(toAsk, given, false, humFrequenciesHz, work).map(sureReading);
  const mixedAgain = again.flatMap((reading) => reading.mixtures);
  const mixtures = [...alone.first.mixtures, ...first, ...mixedAgain];
  const moves = [...readings, ...again].flatMap((reading) => reading.moves);
  const free = (one: TimeSpan) => isFree(one, [...mixtures, ...twins]);
  // What is left over of a sound that was read jointly is a piece of the same mixture, not one string.
  const isLeftOver = (one: TimeSpan) =>
    readings.some(
      (reading) =>
        reading.mixtures.length > 0 &&
        one.startSeconds < reading.stretch.endSeconds &&
        one.endSeconds > reading.stretch.startSeconds,
    );
  return {
    measured:
      given === null
        ? alone.measured.filter((one) => free(one) && (isUndoubted(one) || !isLeftOver(one)))
        : [],
    mixed: alone.mixed.filter((one) => free(one) && !isLeftOver(one)),
    mixtures,
    twins,
    foreign: readings.flatMap((reading) => reading.foreign).filter((one) => isFree(one, mixedAgain)),
    changing: readings.flatMap((reading) => reading.changing).filter((one) => isFree(one, mixedAgain)),
    moves: [...moves, ...movesBetween(mixtures, moves, targets, sounding)],
  };
}

function isFree(one: TimeSpan, taken: readonly TimeSpan[]): boolean {
  return taken.every(
    ({ startSeconds, endSeconds }) => endSeconds <= one.startSeconds || startSeconds >= one.endSeconds,
  );
}

/** Moves that lie between passages read apart from each other, in one sound. */
function movesBetween(
  mixtures: readonly MixedStrings[],
  known: readonly StringMove[],
  targets: readonly StringTarget[],
  sounding: readonly TimeSpan[],
): StringMove[] {
  const rising = [...mixtures].sort((a, b) => a.startSeconds - b.startSeconds);
  return stringMoves(rising, targets).filter(
    ({ targetIndex, startSeconds, endSeconds }) =>
      sounding.some((one) => one.startSeconds <= startSeconds && one.endSeconds >= endSeconds) &&
      known.every(
        (move) =>
          move.targetIndex !== targetIndex ||
          move.endSeconds < startSeconds - APART_SECONDS ||
          move.startSeconds > endSeconds + APART_SECONDS,
      ),
  );
}

function isUndoubted({ findings }: MeasuredPassage): boolean {
  return !findings.some(({ code }) => DOUBTS.includes(code));
}

function wasAsked({ startSeconds }: TimeSpan, { asked }: AskedFirst): boolean {
  return [...asked].some((one) => one.startSeconds === startSeconds);
}

function doubtful(sounding: readonly TimeSpan[], { measured, mixed, unread }: ReadAlone): TimeSpan[] {
  const suspects = [
    ...mixed,
    ...measured.filter(({ findings }) => findings.some(({ code }) => DOUBTS.includes(code))),
  ].map(({ startSeconds, endSeconds }) => ({
    startSeconds: startSeconds - REACH_SECONDS,
    endSeconds: endSeconds + REACH_SECONDS,
  }));
  const all = [...suspects, ...unread].sort((a, b) => a.startSeconds - b.startSeconds);
  const clean = measured.filter(isUndoubted);
  const isClear = (from: number, to: number) =>
    clean.every(({ startSeconds, endSeconds }) => endSeconds <= from || startSeconds >= to);
  return sounding.flatMap((stretch) => {
    const joined: TimeSpan[] = [];
    for (const one of all) {
      const startSeconds = Math.max(stretch.startSeconds, one.startSeconds);
      const endSeconds = Math.min(stretch.endSeconds, one.endSeconds);
      if (endSeconds <= startSeconds) continue;
      const last = joined.at(-1);
      // What lies between two doubtful pieces of one sound, with nothing read in it, belongs to them.
      if (last !== undefined && (startSeconds <= last.endSeconds || isClear(last.endSeconds, startSeconds))) {
        joined[joined.length - 1] = {
          startSeconds: last.startSeconds,
          endSeconds: Math.max(last.endSeconds, endSeconds),
        };
      } else {
        joined.push({ startSeconds, endSeconds });
      }
    }
    return joined;
  });
}
