import type { StringingReading, StringingRow } from "../stringing/StringingReading.js";
import type { StringingDocument } from "../stringing/stringingDocumentSchema.js";
import { rounded, roundedFinite } from "./rounded.js";

/** Standard gravity, by which a kilogram-force is defined. */
const NEWTON_PER_KILOGRAM_FORCE = 9.80665;

/** What goes into the document of one `stringing` call. */
export interface StringingDocumentInput {
  readonly toolVersion: string;
  readonly instrument: string;
  readonly against: string | null;
  readonly settings: StringingDocument["settings"];
  readonly reading: StringingReading;
}

/** Builds the JSON document of `stringing`: newtons to 0.01, grams per metre to 0.0001, shares to 0.001. */
export function stringingDocument({ reading, ...rest }: StringingDocumentInput): StringingDocument {
  return {
    schemaVersion: 1,
    tool: "gurdybench",
    ...rest,
    strings: reading.strings.map(row),
    totalNewton: roundedFinite(reading.totalNewton, 2),
    totalCount: reading.totalCount,
    comparison:
      reading.against?.map(({ name, sameStringNewton, sameTensionGramsPerMetre, there }) => ({
        name,
        note: there.note,
        frequencyHz: roundedFinite(there.frequencyHz, 3),
        lengthMm: rounded(there.lengthMm, 1),
        sameStringNewton: rounded(sameStringNewton, 2),
        sameTensionGramsPerMetre: rounded(sameTensionGramsPerMetre, 4),
        tensionNewton: rounded(there.tensionNewton, 2),
        breakingShare: rounded(there.breakingShare, 3),
      })) ?? null,
  };
}

function row(one: StringingRow): StringingDocument["strings"][number] {
  return {
    name: one.name,
    role: one.role,
    note: one.note,
    frequencyHz: roundedFinite(one.frequencyHz, 3),
    lengthMm: rounded(one.lengthMm, 1),
    linearDensityGramsPerMetre: rounded(one.density?.gramsPerMetre ?? null, 4),
    densityBasis: one.density?.basis ?? null,
    densityLacking: one.densityLacking,
    tensionNewton: rounded(one.tensionNewton, 2),
    tensionKilogramForce:
      one.tensionNewton === null ? null : rounded(one.tensionNewton / NEWTON_PER_KILOGRAM_FORCE, 3),
    breakingShare: rounded(one.breakingShare, 3),
    breakingHz: rounded(one.breakingHz, 2),
    wantedGramsPerMetre: rounded(one.wantedGramsPerMetre, 4),
    capo: one.capo.map(({ semitones, fromNutMm }) => ({ semitones, fromNutMm: roundedFinite(fromNutMm, 1) })),
  };
}
