import type { SoundReading } from "../reading/TakeReading.js";
import type { ComparedSide } from "./Comparison.js";

/** A string or set of strings that some take lacks. */
export interface MissingSound {
  readonly strings: readonly string[];
  readonly side: string;
  /** So many takes of that side lack it. */
  readonly takeCount: number;
}

/** What every take of every side has, and what some have not. */
export interface CommonSounds {
  readonly common: readonly (readonly string[])[];
  readonly missing: readonly MissingSound[];
}

/**
 * Only what was played in every take is compared: a note that one side lacks would count as a difference of the
 * instruments. Strings that sounded together are one sound of their own, as their partials can't all be parted.
 */
export function commonSounds(sides: readonly ComparedSide[]): CommonSounds {
  const all = new Map<string, readonly string[]>();
  for (const { strings } of sides.flatMap(({ takes }) => takes.flatMap(({ sounds }) => sounds))) {
    all.set(soundKey(strings), strings);
  }
  const missing = [...all].flatMap(([key, strings]) =>
    sides.flatMap(({ name, takes }): MissingSound[] => {
      const takeCount = takes.filter(({ sounds }) =>
        sounds.every((one) => soundKey(one.strings) !== key),
      ).length;
      return takeCount === 0 ? [] : [{ strings, side: name, takeCount }];
    }),
  );
  const lacking = new Set(missing.map(({ strings }) => soundKey(strings)));
  return { common: [...all].flatMap(([key, strings]) => (lacking.has(key) ? [] : [strings])), missing };
}

/** The sounds of a take that are among those. */
export function soundsAmong(
  sounds: readonly SoundReading[],
  among: readonly (readonly string[])[],
): SoundReading[] {
  const keys = new Set(among.map(soundKey));
  return sounds.filter(({ strings }) => keys.has(soundKey(strings)));
}

function soundKey(strings: readonly string[]): string {
  return JSON.stringify(strings);
}
