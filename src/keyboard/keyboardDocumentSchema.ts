import * as z from "zod";
import { bodyFields } from "../body/bodyFields.js";
import { documentHead } from "../document/documentHead.js";
import { encodingSchema } from "../document/encodingSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { targetSettings } from "../document/targetSettings.js";

const towards = z.enum(["nut", "bridge"]).nullable();
const millimetres = z.number().nullable();

const keySchema = z.object({
  key: z.int().min(1).describe("From 1, the key next to the nut; key 0 would be the open string, see openHz"),
  note: z.string(),
  targetHz: z.number().describe("Over the open string as it is (openHz)"),
  frequencyHz: z.number().describe("The swing of the wheel taken out"),
  deviationCents: z.number().describe("From the target, sharp positive"),
  interval95Cents: intervalSchema,
  tangentMoveMm: millimetres.describe("Size of the move of the tangent's edge, nut and bridge as they are"),
  towards,
  tangentMoveAfterShiftMm: millimetres.describe("The same once the shifts that are offered were made"),
  towardsAfterShift: towards,
  leftCents: z.number().describe("What those shifts leave of the deviation"),
  soundingLengthMm: millimetres,
  stretches: z
    .array(z.object({ startSeconds: z.number(), endSeconds: z.number() }))
    .describe("Where it was read, well within each of its notes"),
  unsteadinessCents: z.number(),
  harmonicToNoiseDb: z.number().nullable(),
  harsh: z.boolean(),
  unsteady: z.boolean(),
});

const estimate = z.object({ value: z.number(), interval95: intervalSchema }).nullable();

const readingFields = {
  file: z.string(),
  encoding: encodingSchema,
  string: z.string(),
  openTargetHz: z.number(),
  openHz: z.number().describe("What the keys are counted from"),
  openBasis: z.enum(["heard", "target"]).describe("target: the open string was not played"),
  openDeviationCents: z
    .number()
    .nullable()
    .describe("Of the open string from its target; null where not played"),
  lengthMm: z.number().nullable().describe("Vibrating length, nut to bridge"),
  keys: z.array(keySchema),
  missedKeys: z.array(z.int()),
  nutShiftMm: millimetres.describe("Positive towards the bridge; null where not shown or without a length"),
  bridgeShiftMm: millimetres.describe("Positive away from the nut; null where not shown or without a length"),
  pattern: z.object({
    constantCents: estimate.describe("The same for all keys over the open string; null where not shown"),
    bridgeCents: estimate.describe("Factor of 2^(n/12) - 1; null where not shown"),
    nutShiftInterval95Mm: intervalSchema.nullable(),
    bridgeShiftInterval95Mm: intervalSchema.nullable(),
    spreadCents: z.number().describe("Robust standard deviation of the keys from their places"),
    leftCents: z.number().describe("The same from the pattern"),
  }),
  swingCents: z.number().nullable().describe("Peak, half of peak to peak"),
  swingRateHz: z.number().nullable(),
  drones: z.array(z.object({ name: z.string(), frequencyHz: z.number() })).describe("Taken out"),
  ...bodyFields,
  findings: z.array(findingSchema),
};

/**
 * The JSON document of `keyboard`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const keyboardDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string().nullable(),
  settings: z.object(targetSettings),
  ...readingFields,
  other: z
    .object(readingFields)
    .nullable()
    .describe("The other string of the same keys, where one was given"),
  commonDifferenceCents: z
    .number()
    .nullable()
    .describe("By how much all keys of the first string stand above those of the other"),
  differences: z
    .array(
      z.object({
        key: z.int().min(1),
        note: z.string(),
        deviationCents: z.number(),
        otherDeviationCents: z.number(),
        differenceCents: z.number().describe("The first string's less the other's"),
        interval95Cents: intervalSchema,
        disagrees: z.boolean(),
      }),
    )
    .describe("Keys that were heard on both strings"),
  inShort: z.array(z.string()).describe("What to do, in the order of work; its wording may change"),
});

/** The document as typed by its schema. */
export type KeyboardDocument = z.infer<typeof keyboardDocumentSchema>;
