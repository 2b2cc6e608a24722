import type { Instrument, InstrumentString, StringRole } from "./Instrument.js";
import { nameStrings } from "./nameStrings.js";

/** Role, note, semitones of the capo. */
type TuningString = readonly [StringRole, string, (readonly number[])?];

function tuning(name: string, tuningStrings: readonly TuningString[]): Instrument {
  const names = nameStrings(tuningStrings.map(([, note]) => ({ name: null, note })));
  const strings = tuningStrings.map(
    ([role, note, capo = []], index): InstrumentString => ({
      name: names[index] ?? note,
      role,
      note,
      frequencyHz: null,
      offsetCents: 0,
      lengthMm: null,
      keys: null,
      capo,
      linearDensityGramsPerMetre: null,
      massGrams: null,
      cutLengthMm: null,
      diameterMm: null,
      material: null,
    }),
  );
  return { name, a4Hz: 440, temperament: "equal", tonic: null, drones: "pure", strings };
}

const lowDrones: readonly TuningString[] = [
  ["drone", "C2"],
  ["drone", "G2"],
  ["drone", "C3"],
];

const highDrones: readonly TuningString[] = [
  ["drone", "G2"],
  ["drone", "C3"],
  ["drone", "G3"],
];

const fourMelodyStrings: readonly TuningString[] = [
  ["melody", "C3"],
  ["melody", "G3"],
  ["melody", "D4"],
  ["melody", "G4"],
];

const threeMelodyStrings = fourMelodyStrings.slice(1);

/**
 * Tunings for those who have no instrument file yet, low strings first: `alto`, `tenor`, `alto-three`,
 * `soprano`, `unison-pair`. All at A4 = 440 Hz, equal temperament, no tonic.
 *
 * Source: common practice, from memory; no published source. Strings are named by their note, and of two
 * equal ones the second is numbered: in `alto` the drone is `C3` and the melody string `C3 2`.
 */
export const builtInTunings: readonly Instrument[] = [
  tuning("alto", [...lowDrones, ...fourMelodyStrings]),
  tuning("tenor", [...lowDrones, ...fourMelodyStrings]),
  tuning("alto-three", [...lowDrones, ...threeMelodyStrings]),
  tuning("soprano", [...highDrones, ["trompette", "C4"], ...threeMelodyStrings, ["melody", "G4"]]),
  tuning("unison-pair", [...highDrones, ["trompette", "C4", [2]], ["melody", "G4"], ["melody", "G4"]]),
];
