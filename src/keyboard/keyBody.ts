import { type BodyCurve, bodyCurve } from "../body/bodyCurve.js";
import type { StringPartial } from "../body/StringPartial.js";
import { powerToDb } from "../units/decibels.js";
import type { HeardNotes } from "./hearNotes.js";

/** A partial nearer to the noise of a frame than this says little of the body. */
const LEAST_SIGNAL_TO_NOISE = 4;

/**
 * The body curve as the keys of one string show it: every key sounds as a string of its own, as strongly as it was bowed, and a
 * scale's partials stand close together, so that there is much of the middle of the range and nothing below the open string.
 *
 * @returns null where no note was heard, or where drones were taken out: what they leave of partials near theirs is not the body's
 */
export function keyBody({ notes, drones }: HeardNotes): BodyCurve | null {
  if (notes.length === 0 || drones.length > 0) return null;
  return bodyCurve(
    notes.flatMap(({ key, note }, index) =>
      note.partials.flatMap(({ number, power, signalToNoise }): StringPartial[] =>
        power > 0 && (signalToNoise ?? 0) >= LEAST_SIGNAL_TO_NOISE
          ? [
              {
                string: `key ${key}`,
                take: String(index),
                number,
                frequencyHz: number * note.frequencyHz,
                levelDb: powerToDb(power),
                signalToNoiseDb: powerToDb(signalToNoise ?? 1),
              },
            ]
          : [],
      ),
    ),
  );
}
