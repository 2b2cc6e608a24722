import type { StringRole } from "../instrument/Instrument.js";
import type { DensityLacking, LinearDensity } from "./linearDensity.js";

/** What a string at a pitch and a length needs or has. What can't be had is null. */
export interface StringingRow {
  readonly name: string;
  readonly role: StringRole;
  readonly note: string;
  readonly frequencyHz: number;
  readonly lengthMm: number | null;
  readonly density: LinearDensity | null;
  readonly densityLacking: DensityLacking | null;
  readonly tensionNewton: number | null;
  /** Share of the stress at which the material breaks, 0 to 1 and above; null for wound strings and unknown strengths. */
  readonly breakingShare: number | null;
  /** Pitch at which it would break, in hertz, at this length. */
  readonly breakingHz: number | null;
  /** The linear density that would have the tension asked for; null where none was. */
  readonly wantedGramsPerMetre: number | null;
  /** Where each capo position stops the string, from the nut; the tension stays. */
  readonly capo: readonly { readonly semitones: number; readonly fromNutMm: number }[];
}

/** The same string on another length, or at another pitch. */
export interface StringingComparison {
  readonly name: string;
  /** Tension of the very same string there. */
  readonly sameStringNewton: number | null;
  /** Linear density that has the first tension there, and its ratio to the first. */
  readonly sameTensionGramsPerMetre: number | null;
  readonly there: StringingRow;
}

/** All strings of an instrument, and of another one beside it. */
export interface StringingReading {
  readonly strings: readonly StringingRow[];
  /** Sum of the tensions that are known, and how many strings it is of. */
  readonly totalNewton: number;
  readonly totalCount: number;
  readonly against: readonly StringingComparison[] | null;
}
