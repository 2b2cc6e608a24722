import type { MeasuredPassage } from "../strings/MeasuredPassage.js";
import type { MixedStrings } from "../strings/MixedStrings.js";
import type { StringReading } from "../strings/StringReading.js";
import { readWheel } from "../wheel/readWheel.js";
import type { TurningPassage } from "../wheel/readWheelPassage.js";
import type { WheelReading } from "../wheel/WheelReading.js";
import type { MeasureOptions } from "./MeasureOptions.js";
import type { Work } from "./Work.js";

/** What the wheel does in the passages of a take, those with one string and those with several, in order of time. */
export function takeWheel(
  strings: readonly StringReading[],
  alone: readonly MeasuredPassage[],
  mixtures: readonly MixedStrings[],
  { targets, turnsPerSecond }: MeasureOptions,
  work: Work,
): WheelReading {
  const nameAt = (seconds: number) =>
    strings.find(({ perPassage }) => perPassage.some(({ startSeconds }) => startSeconds === seconds))?.name;
  const single = alone.map((passage): TurningPassage => {
    const name = nameAt(passage.startSeconds);
    const { startSeconds, endSeconds, movement } = passage;
    const isKnown = name !== undefined && movement !== undefined;
    return { startSeconds, endSeconds, strings: isKnown ? [{ name, movement }] : [] };
  });
  const several = mixtures.map(({ startSeconds, endSeconds, strings: inIt }): TurningPassage => {
    const followed = inIt.flatMap(({ targetIndex, neededSeconds, isGuess, reading: { movement } }) => {
      const name = targets?.[targetIndex]?.name;
      const isTold = neededSeconds === null && !isGuess;
      return isTold && name !== undefined && movement !== undefined ? [{ name, movement }] : [];
    });
    return { startSeconds, endSeconds, strings: followed };
  });
  const passages = [...single, ...several].sort((a, b) => a.startSeconds - b.startSeconds);
  return readWheel(passages, turnsPerSecond ?? null, (each, options) =>
    work.all(
      "wheel",
      each.map((passage) => ({ passage, options })),
    ),
  );
}
