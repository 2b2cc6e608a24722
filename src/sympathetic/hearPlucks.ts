import type { ChannelSound } from "../strings/strongestChannel.js";
import { dbToPower, powerToDb } from "../units/decibels.js";
import type { Pluck } from "./Pluck.js";
import { type OtherOnset, type PluckedSound, readPlucks } from "./readPlucks.js";

/** Onsets this near, in two channels, are one. */
const SAME_ONSET_SECONDS = 0.06;
/** What begins 40 dB below the strongest pluck is a stir of something else. */
const LEAST_POWER = 1e-4;

/**
 * Reads the plucks of every channel and takes each from the channel that shows its pitch best; its level is the power mean of the
 * channels.
 */
export function hearPlucks(
  channels: readonly ChannelSound[],
  targetsHz: readonly number[],
  onProgress: (share: number) => void,
): PluckedSound {
  const heard = channels.map(({ segment, levelScale }, c) => {
    const sound = readPlucks(segment.samples, segment.sampleRateHz, targetsHz, (share) =>
      onProgress((c + share) / channels.length),
    );
    return { ...sound, levelScale };
  });
  const groups: { pluck: Pluck; power: number }[] = [];
  for (const { plucks, levelScale } of heard) {
    for (const pluck of plucks) {
      const power = levelScale * dbToPower(pluck.levelDb);
      const same = groups.find((one) => isSameMoment(one.pluck, pluck));
      if (same === undefined) {
        groups.push({ pluck, power });
        continue;
      }
      same.power += power;
      if (pluck.deviationCents < same.pluck.deviationCents) same.pluck = pluck;
    }
  }
  const most = Math.max(0, ...groups.map(({ power }) => power));
  const plucks = groups
    .filter(({ power }) => power > LEAST_POWER * most)
    .map(({ pluck, power }) => ({ ...pluck, levelDb: powerToDb(power) }))
    .sort((a, b) => a.onsetSeconds - b.onsetSeconds);
  const others: OtherOnset[] = [];
  for (const other of heard.flatMap((one) => one.others)) {
    if (![...plucks, ...others].some((one) => isSameMoment(one, other))) others.push(other);
  }
  return { plucks, others: others.sort((a, b) => a.onsetSeconds - b.onsetSeconds) };
}

function isSameMoment(a: { onsetSeconds: number }, b: { onsetSeconds: number }): boolean {
  return Math.abs(a.onsetSeconds - b.onsetSeconds) < SAME_ONSET_SECONDS;
}
