import * as z from "zod";
import { documentHead } from "../document/documentHead.js";

const number = z.number().nullable();

const rowSchema = z.object({
  name: z.string(),
  role: z.enum(["melody", "drone", "trompette", "sympathetic"]),
  note: z.string(),
  frequencyHz: z.number(),
  lengthMm: number,
  linearDensityGramsPerMetre: number,
  densityBasis: z.enum(["given", "weighed", "diameter"]).nullable(),
  densityLacking: z.enum(["nothing-given", "half-given", "material-unknown"]).nullable(),
  tensionNewton: number,
  tensionKilogramForce: number,
  breakingShare: number.describe(
    "Share of the stress at which the material breaks; null where it is not known",
  ),
  breakingHz: number.describe("Pitch at which it would break, at this length"),
  wantedGramsPerMetre: number.describe("Linear density that has the tension asked for"),
  capo: z.array(z.object({ semitones: z.int(), fromNutMm: z.number() })),
});

/** The JSON document of `stringing`, version 1. Fields may be added within a version, none renamed or taken away. */
export const stringingDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string(),
  against: z.string().nullable().describe("What stands beside it, in words"),
  settings: z.object({
    a4Hz: z.number(),
    tonic: z.string().nullable(),
    tensionNewton: number,
    otherLengthMm: number,
    retune: z.record(z.string(), z.string()),
  }),
  strings: z.array(rowSchema),
  totalNewton: z.number(),
  totalCount: z.int(),
  comparison: z
    .array(
      z.object({
        name: z.string(),
        note: z.string(),
        frequencyHz: z.number(),
        lengthMm: number,
        sameStringNewton: number.describe("Tension of the very same string there"),
        sameTensionGramsPerMetre: number.describe("Linear density that has the first tension there"),
        tensionNewton: number.describe("Of the other instrument's own string"),
        breakingShare: number,
      }),
    )
    .nullable(),
});

/** The document as typed by its schema. */
export type StringingDocument = z.infer<typeof stringingDocumentSchema>;
