import { type DampedMode, strongest } from "./DampedMode.js";
import { fitPartial, type OldMode, type PartialFit } from "./fitPartial.js";
import type { PartialFrames } from "./partialFrames.js";

/** Distances to begin with, and how much slower or faster the second mode decays. */
const SPLITS_HZ = [0.15, 0.4, 0.9];
const WIDEST_SPLIT_HZ = 6;
const LEAST_DECAY = 0.05;
/** Modes that all but cancel are no polarisations. */
const MOST_OVER_SUM = 4;
const FIRST_STEPS = 4;

/**
 * One partial as two modes, where that explains notably more: a string swings in two planes, which the bridge holds differently
 * (Weinreich 1977), and so beats and decays in two stages.
 *
 * @param worth - by how much the logarithm of what is left, times the frames, must fall
 */
export function withSecondMode(
  frames: PartialFrames,
  one: PartialFit,
  old: readonly OldMode[],
  reachHz: number,
  worth: number,
): PartialFit {
  const mode = strongest(one.modes);
  const single = one.modes.length === 1 ? one : fitPartial(frames, [mode], old, reachHz);
  if (single === null) return one;
  const [start] = single.modes;
  const tried = SPLITS_HZ.flatMap((hz) => [hz, -hz]).flatMap((apart) => {
    const two = fitPartial(
      frames,
      [
        { ...start, re: 0.7 * start.re, im: 0.7 * start.im },
        {
          ...start,
          re: 0.3 * start.re,
          im: 0.3 * start.im,
          frequencyHz: start.frequencyHz + apart,
          decayPerSecond: 0.8 * start.decayPerSecond,
        },
      ],
      old,
      reachHz,
      FIRST_STEPS,
    );
    return two === null ? [] : [two];
  });
  const most = tried.sort((a, b) => a.restPower - b.restPower).slice(0, 2);
  const settled = [
    ...(one.modes.length === 2 ? [one] : []),
    ...most.flatMap(({ modes }) => fitPartial(frames, modes, old, reachHz) ?? []),
  ].filter(({ modes }) => isPlausible(modes));
  if (settled.length === 0) return single;
  const best = settled.reduce((a, b) => (b.restPower < a.restPower ? b : a));
  return single.frameCount * Math.log(single.restPower / best.restPower) > worth ? best : single;
}

function isPlausible([a, b]: readonly DampedMode[]): boolean {
  const sum = Math.hypot(a.re + b.re, a.im + b.im);
  return (
    Math.abs(a.frequencyHz - b.frequencyHz) < WIDEST_SPLIT_HZ &&
    Math.min(a.decayPerSecond, b.decayPerSecond) > LEAST_DECAY &&
    Math.max(Math.hypot(a.re, a.im), Math.hypot(b.re, b.im)) < MOST_OVER_SUM * sum
  );
}
