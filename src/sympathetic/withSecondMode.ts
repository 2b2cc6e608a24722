import { arePolarisations } from "./arePolarisations.js";
import { strongest } from "./DampedMode.js";
import { fitPartial, type PartialFit } from "./fitPartial.js";
import type { PartialFrames } from "./partialFrames.js";
import type { OldMode } from "./partialModel.js";

/** Distances to begin with, and how much slower or faster the second mode decays. */
const SPLITS_HZ = [0.15, 0.4, 0.9];
const FIRST_STEPS = 4;

/**
 * One partial as two modes, where that explains notably more: a string swings in two planes, which the bridge holds differently
 * (Weinreich 1977), and so beats and decays in two stages.
 *
 * @param number - of the partial
 * @param worth - by how much the logarithm of what is left, times the frames, must fall
 */
export function withSecondMode(
  frames: PartialFrames,
  one: PartialFit,
  old: readonly OldMode[],
  reachHz: number,
  worth: number,
  number: number,
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
  ].filter(({ modes }) => arePolarisations(modes, number));
  if (settled.length === 0) return single;
  const best = settled.reduce((a, b) => (b.restPower < a.restPower ? b : a));
  return single.frameCount * Math.log(single.restPower / best.restPower) > worth ? best : single;
}
