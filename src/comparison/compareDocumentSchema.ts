import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { failedSchema } from "../document/failedSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { soundSettings } from "../document/soundSettings.js";

const level = z.number().nullable();
const interval = intervalSchema.nullable();
const side = z.string().describe("Name of the side");

const measureSchema = z.object({
  measure: z
    .string()
    .describe("lowRegisterDb, lowLevelDb, centroidHz, lowReachHz, octave63Db ..., partial1Db to partial4Db"),
  string: z.string().nullable().describe("Null for the take as a whole"),
  unit: z.enum(["dB", "Hz"]),
  primary: z.boolean().describe("The one measure that is tested at 5 % by itself"),
  sideA: side,
  sideB: side,
  a: z.number().describe("Mean over the takes"),
  b: z.number(),
  sdA: level.describe("Standard deviation between takes; null for one take"),
  sdB: level,
  takesA: z.array(z.number()),
  takesB: z.array(z.number()),
  difference: z.number().describe("a minus b"),
  interval95: interval.describe("Of this measure by itself, by Welch's t; null with one take on a side"),
  pAdjusted: z
    .number()
    .nullable()
    .describe(
      "Holm-adjusted; the primary measure's own with two sides. Shown below 0.05 for the primary, below 0.02 for the others",
    ),
  smallestDetectable: z
    .number()
    .nullable()
    .describe("Smallest true difference shown with 80 % probability at the level used"),
  takesForOneDb: z.number().nullable().describe("Takes a side that would show 1 dB with 80 % probability"),
  verdict: z.enum(["a-higher", "b-higher", "not-shown"]),
});

/**
 * The JSON document of `compare`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const compareDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string().nullable(),
  settings: z.object({
    ...soundSettings,
    lowEdgeHz: z.number(),
    equalGain: z.boolean(),
    microphone: z.string().nullable().describe("File with the microphone's response, where one was named"),
  }),
  sides: z.array(
    z.object({
      name: z.string(),
      takeCount: z.int().min(0).describe("Takes that were used"),
      files: z.array(z.string()),
    }),
  ),
  failed: z.array(failedSchema).describe("Takes that could not be read or held no string"),
  sounds: z.array(z.array(z.string())).describe("Strings and sets of strings that every take has"),
  measures: z.array(measureSchema),
  partialDifferences: z.array(
    z.object({
      sideA: side,
      sideB: side,
      string: z.string(),
      number: z.int().min(1),
      frequencyHz: z.number(),
      differenceDb: z.number(),
      interval95Db: interval,
    }),
  ),
  bodyCurveDifference: z.array(
    z.object({
      sideA: side,
      sideB: side,
      frequencyHz: z.number(),
      differenceDb: z.number(),
      interval95Db: interval.describe("All points hold together with 95 % probability"),
    }),
  ),
  ranking: z.array(
    z.object({ name: z.string(), takeCount: z.int(), lowRegisterDb: z.number(), interval95Db: interval }),
  ),
  findings: z.array(findingSchema),
  verdict: z.array(z.string()).describe("The answer in plain words, one sentence for each pair of sides"),
});

/** The document as typed by its schema. */
export type CompareDocument = z.infer<typeof compareDocumentSchema>;
