import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { encodingSchema } from "../document/encodingSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { soundSettings } from "../document/soundSettings.js";

const value = z.number().nullable();

const swingSchema = z.object({
  swing: value.describe("Peak, half of peak to peak; null where none is shown"),
  interval95: intervalSchema.describe("Where none is shown: from 0 to what could have been missed"),
  harmonics: z.array(
    z.object({
      number: z.int().min(1).describe("Waves a turn"),
      amount: z.number().describe("Peak"),
      interval95: intervalSchema,
      highestDegrees: z.number().describe("Of the turn; again every 360 / number"),
      highestInterval95Degrees: intervalSchema,
    }),
  ),
  turn: z
    .array(z.object({ degrees: z.number(), mean: z.number(), interval95: intervalSchema }))
    .describe("24 places round the wheel, against the mean; empty in fewer than three whole turns"),
  drift: z.number().describe("Standard deviation of what is slower than a turn"),
  jitter: z.number().describe("Standard deviation of what is quicker and does not come round"),
});

const commonSchema = z.object({
  swing: value.describe("Root mean square over the strings that show one"),
  interval95: intervalSchema.nullable(),
  togetherShare: value.describe("Share that all strings do at the same moment, 0 to 1"),
});

const passageSchema = z.object({
  startSeconds: z.number(),
  endSeconds: z.number(),
  turnsPerSecond: value,
  turnsInterval95: intervalSchema.nullable(),
  rateSpread: value.describe("Standard deviation of the rate as a share of it"),
  falseAlarmProbability: value,
  refusal: z.enum(["too-short", "no-swing", "not-followed"]).nullable(),
  candidates: z.array(
    z.object({
      turnsPerSecond: z.number(),
      isTaken: z.boolean(),
      strongestWave: z.int().min(1),
      reason: z.enum(["given", "sub-wave", "no-sub-wave", "strongest", "too-fast"]),
      probability: value,
    }),
  ),
  strings: z.array(
    z.object({
      name: z.string(),
      pitch: swingSchema.describe("In cents"),
      level: swingSchema.describe("In decibels"),
    }),
  ),
  pitch: commonSchema.describe("In cents"),
  level: commonSchema.describe("In decibels"),
  differences: z.array(
    z.object({
      first: z.string(),
      second: z.string(),
      quantity: z.enum(["pitch", "level"]),
      harmonic: z.int().min(1),
      laterDegrees: z.number().describe("How much later in the turn the second is highest"),
      interval95Degrees: intervalSchema,
      verdict: z.enum(["together", "apart", "unclear"]),
    }),
  ),
  cause: z.enum(["all-at-once", "one-after-another", "some-of-each", "unclear", "one-string"]),
});

/**
 * The JSON document of `wheel`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const wheelDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string().nullable(),
  settings: z.object({
    ...soundSettings,
    turnsPerSecond: value.describe("As counted by eye; null where not given"),
  }),
  file: z.string(),
  durationSeconds: z.number(),
  encoding: encodingSchema,
  turnsPerSecond: value.describe("Median over the passages that show it, as are the next two"),
  pitchSwingCents: value,
  levelSwingDb: value,
  passages: z.array(passageSchema),
  findings: z.array(findingSchema),
  verdict: z.array(z.string()).describe("The answer in plain words"),
});

/** The document as typed by its schema. */
export type WheelDocument = z.infer<typeof wheelDocumentSchema>;
