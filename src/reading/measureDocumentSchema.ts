import * as z from "zod";
import { bodyFields } from "../body/bodyFields.js";
import { documentHead } from "../document/documentHead.js";
import { encodingSchema } from "../document/encodingSchema.js";
import { failedSchema } from "../document/failedSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { soundSettings } from "../document/soundSettings.js";

const level = z.number().nullable();
const interval = intervalSchema.nullable();
const bands = z.record(z.string(), level);
const role = z.enum(["melody", "drone", "trompette", "sympathetic"]).nullable();

const passageSchema = z.object({
  startSeconds: z.number(),
  endSeconds: z.number(),
  frequencyHz: z.number(),
  deviationCents: z.number(),
  interval95Cents: interval,
  unsteadinessCents: z.number().nullable(),
  swingCents: z.number().nullable().describe("Peak, half of peak to peak"),
  swingRateHz: z.number().nullable(),
  levelDb: level,
  harmonicToNoiseDb: level,
});

const partialSchema = z.object({
  number: z.int().min(1),
  frequencyHz: z.number(),
  levelDb: level.describe("Relative to the whole string; null where shared or lost in noise"),
  fullScaleDb: level,
  signalToNoiseDb: level,
  shared: z.boolean(),
});

const stringSchema = z.object({
  name: z.string(),
  role,
  targetHz: z.number(),
  status: z.enum(["measured", "not-heard", "unresolved"]),
  frequencyHz: z.number().nullable(),
  deviationCents: z.number().nullable().describe("From the target, sharp positive"),
  interval95Cents: interval,
  ownErrorCents: z
    .number()
    .nullable()
    .describe("After the common offset of all strings, or the anchor's deviation, is taken off"),
  ownErrorInterval95Cents: interval.describe("Only where the own error is counted from an anchor"),
  unsteadinessCents: z.number().nullable(),
  levelDb: level.describe("Relative to a full-scale sine"),
  harmonicToNoiseDb: level,
  partials: z.array(partialSchema),
  lowRegisterDb: level.describe("10 lg(energy 44.7-177.8 Hz / energy 177.8-2818.4 Hz)"),
  octaveBandsDb: bands.nullable(),
  centroidHz: z.number().nullable(),
  frameCentroidHz: z.number().nullable(),
  tristimulus: z.tuple([z.number(), z.number(), z.number()]).nullable(),
  oddToEvenDb: level,
  perPassage: z.array(passageSchema),
  findings: z.array(findingSchema),
});

const pairSchema = z.object({
  lower: z.string(),
  upper: z.string(),
  ratio: z.string().describe("Upper to lower, as 3:2"),
  basis: z.enum(["measured", "in-turn"]),
  centsFromPure: z.number().describe("Wide positive"),
  interval95Cents: interval,
  beatsPerSecond: z.number(),
});

const lowStringSchema = z.object({
  string: z.string(),
  lowLevelDb: level.describe("What it brings from 44.7 Hz to the low edge, re full-scale sine"),
  restLevelDb: level,
  fundamentalBelowEvenDb: level.describe("By the body curve where there is one, else by the string alone"),
  fundamentalInterval95Db: interval,
  carriers: z.array(z.int()).describe("Partials within 10 dB of the strongest of the first eight"),
  partials: z.array(
    z.object({
      number: z.int().min(1),
      frequencyHz: z.number(),
      belowEvenDb: level.describe("How far under what an even body would give"),
      interval95Db: interval,
    }),
  ),
});

const lowRegisterSchema = z.object({
  lowRegisterDb: level,
  octaveBandsDb: bands,
  thirdOctaveDb: z.array(z.object({ midbandHz: z.number(), levelDb: level })),
  centroidHz: z.number().nullable(),
  ...bodyFields,
  lowStrings: z.array(lowStringSchema).describe("Strings whose fundamental lies in the low register"),
});

const takeSchema = z.object({
  file: z.string(),
  sampleRateHz: z.number(),
  channelCount: z.int().min(1),
  encoding: encodingSchema,
  durationSeconds: z.number(),
  passages: z.array(
    z.object({ startSeconds: z.number(), endSeconds: z.number(), strings: z.array(z.string()) }),
  ),
  strings: z.array(stringSchema),
  pairs: z.array(pairSchema),
  referencePitch: z
    .object({
      a4Hz: z.number(),
      offsetCents: z.number(),
      interval95Cents: interval,
      anchor: z.string().nullable().describe("The string it is taken from; null: what all have in common"),
    })
    .nullable(),
  wheel: z
    .object({ turnsPerSecond: z.number().nullable(), pitchSwingCents: level, levelSwingDb: level })
    .nullable()
    .describe("What keeps time with the wheel, peak, median over the passages; null where nothing is shown"),
  lowRegister: lowRegisterSchema.nullable(),
  findings: z.array(findingSchema),
});

const summarySchema = z.object({
  strings: z.array(
    z.object({
      name: z.string(),
      role,
      targetHz: z.number(),
      takeCount: z.int().min(0),
      deviationCents: z.number().nullable().describe("Mean over the takes, sharp positive"),
      interval95Cents: interval,
      intervalBasis: z.enum(["between-takes", "within-take"]).nullable(),
      spreadCents: z.number().nullable().describe("Standard deviation between takes"),
      betweenTakesCents: z
        .number()
        .nullable()
        .describe("The same without what differs from passage to passage; null where no take has two"),
      withinTakesCents: z
        .number()
        .nullable()
        .describe("Standard deviation from passage to passage of one take"),
      ownErrorTakeCount: z.int().min(0).describe("Takes in which this string and the anchor were heard"),
      ownErrorCents: z.number().nullable().describe("Mean over those takes; null without an anchor"),
      ownErrorInterval95Cents: interval,
      ownErrorSpreadCents: z.number().nullable().describe("Standard deviation between those takes"),
      lowRegisterDb: level,
      lowRegisterSpreadDb: level,
      lowRegisterInterval95Db: interval,
    }),
  ),
  lowRegister: z.object({
    takeCount: z.int().min(0),
    lowRegisterDb: level,
    spreadDb: level,
    interval95Db: interval,
    ...bodyFields,
  }),
});

/**
 * The JSON document of `measure`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const measureDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string().nullable().describe("Name of the instrument; null where none was named"),
  settings: z.object({
    ...soundSettings,
    anchor: z.string().nullable().describe("The string that the others are to go by"),
    lowEdgeHz: z.number().describe("Where the low register ends; 177.8 unless it was moved"),
  }),
  takes: z.array(takeSchema),
  failed: z.array(failedSchema).describe("Takes that could not be read"),
  summary: summarySchema,
});

/** The document as typed by its schema. */
export type MeasureDocument = z.infer<typeof measureDocumentSchema>;
