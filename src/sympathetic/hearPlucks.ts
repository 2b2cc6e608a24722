import type { ChannelSound } from "../strings/strongestChannel.js";
import { cents } from "../units/cents.js";
import { dbToPower, powerToDb } from "../units/decibels.js";
import type { Pluck } from "./Pluck.js";
import { type OtherOnset, type PluckedSound, readPlucks } from "./readPlucks.js";

/** Onsets this near, in two channels, are one. */
const SAME_ONSET_SECONDS = 0.06;
/** What begins 40 dB below the strongest pluck is a stir of something else. */
const LEAST_POWER = 1e-4;

/** A pluck 20 dB weaker than the last of its string, soon after it, is none. */
const REST_SECONDS = 2;
const REST_POWER = 0.01;
const REST_CENTS = 25;

interface HeardPluck {
  pluck: Pluck;
  power: number;
}

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
  const groups: HeardPluck[] = [];
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
    .filter((one) => !groups.some((before) => isRestOf(one, before)))
    .map(({ pluck, power }) => ({ ...pluck, levelDb: powerToDb(power) }))
    .sort((a, b) => a.onsetSeconds - b.onsetSeconds);
  const others: OtherOnset[] = [];
  for (const other of heard.flatMap((one) => one.others)) {
    if (![...plucks, ...others].some((one) => isSameMoment(one, other))) others.push(other);
  }
  return { plucks, others: others.sort((a, b) => a.onsetSeconds - b.onsetSeconds) };
}

/** True for what is one with a much stronger pluck shortly before: a beat that comes up again, a wall that answers. */
function isRestOf(one: HeardPluck, before: HeardPluck): boolean {
  const after = one.pluck.onsetSeconds - before.pluck.onsetSeconds;
  return (
    after > 0 &&
    after < REST_SECONDS &&
    one.power < REST_POWER * before.power &&
    Math.abs(cents(one.pluck.frequencyHz, before.pluck.frequencyHz)) < REST_CENTS
  );
}

function isSameMoment(a: { onsetSeconds: number }, b: { onsetSeconds: number }): boolean {
  return Math.abs(a.onsetSeconds - b.onsetSeconds) < SAME_ONSET_SECONDS;
}
