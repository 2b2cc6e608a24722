import { median } from "../signal/median.js";
import type { KeyNote } from "./hearNotes.js";
import type { KeyReading } from "./KeyboardReading.js";
import { pitchSteps } from "./pitchSteps.js";

type KeySound = Pick<
  KeyReading,
  "stretches" | "unsteadinessCents" | "harmonicToNoiseDb" | "isHarsh" | "isUnsteady"
>;

/**
 * A key is harsh where its partials stand so much less above what lies between them than those of most keys, and by so many
 * times as much as keys differ (over a barking trompette they do, by where the barks fall) ...
 */
const HARSH_BELOW_MEDIAN_DB = 8;
const HARSH_SPREADS = 4;
/** ... or hardly at all (our policy). */
const HARSH_DB = 6;
/** Noise of a thousandth of the power is no harshness, however clear the other keys are (our policy). */
const CLEAR_DB = 30;
/** A key is unsteady where it moves by more than this, and that many times as much as most keys (our policy). */
const UNSTEADY_CENTS = 3;
const UNSTEADY_OVER_MEDIAN = 2.5;

/** How each of the keys sounds: how steady, and how clear of noise. */
export function keySound(notes: readonly KeyNote[], keys: readonly number[]): KeySound[] {
  const plain = keys.map((key) => {
    const own = notes.filter((one) => one.key === key).map(({ note }) => note);
    // About the key's own mean: a note that moves much may have been cut into several, and a key may not come back the same.
    const steps = own.flatMap((note) => pitchSteps(note, 0, own[0].frequencyHz).map(({ cents }) => cents));
    const mean = steps.reduce((sum, value) => sum + value, 0) / steps.length;
    const ratios = own.flatMap(({ harmonicToNoiseDb }) => harmonicToNoiseDb ?? []);
    return {
      stretches: own.map(({ startSeconds, endSeconds }) => ({ startSeconds, endSeconds })),
      unsteadinessCents: Math.sqrt(steps.reduce((sum, value) => sum + (value - mean) ** 2, 0) / steps.length),
      harmonicToNoiseDb: ratios.length === 0 ? null : median(Float64Array.from(ratios)),
    };
  });
  const known = plain.flatMap(({ harmonicToNoiseDb }) => harmonicToNoiseDb ?? []);
  const usualDb = known.length === 0 ? 0 : median(Float64Array.from(known));
  const spreadDb =
    known.length === 0 ? 0 : median(Float64Array.from(known, (value) => Math.abs(value - usualDb)));
  const harshDb = usualDb - Math.max(HARSH_BELOW_MEDIAN_DB, HARSH_SPREADS * spreadDb);
  const usualCents =
    plain.length === 0 ? 0 : median(Float64Array.from(plain, ({ unsteadinessCents }) => unsteadinessCents));
  return plain.map((one) => ({
    ...one,
    isHarsh:
      one.harmonicToNoiseDb !== null &&
      one.harmonicToNoiseDb < Math.max(HARSH_DB, Math.min(CLEAR_DB, harshDb)),
    isUnsteady:
      one.unsteadinessCents > UNSTEADY_CENTS && one.unsteadinessCents > UNSTEADY_OVER_MEDIAN * usualCents,
  }));
}
