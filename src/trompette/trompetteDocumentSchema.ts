import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { encodingSchema } from "../document/encodingSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { targetSettings } from "../document/targetSettings.js";

const value = z.number().nullable();

const meanSchema = z
  .object({
    mean: z.number(),
    interval95: intervalSchema.nullable().describe("Of the mean; null for too few strokes"),
  })
  .nullable();

const spreadSchema = z
  .object({ standardDeviation: z.number(), interval95: intervalSchema })
  .nullable()
  .describe("From stroke to stroke");

const pitchSchema = z
  .object({
    frequencyHz: z.number(),
    deviationCents: value.describe("From the target; null where none was named"),
    interval95Cents: intervalSchema.nullable().describe("About frequencyHz"),
  })
  .nullable();

/**
 * The JSON document of `trompette`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const trompetteDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string().nullable(),
  settings: z.object({
    ...targetSettings,
    turnsPerSecond: value.describe("As counted by eye; null where not given"),
  }),
  file: z.string(),
  durationSeconds: z.number(),
  sampleRateHz: z.number(),
  channelCount: z.int(),
  encoding: encodingSchema,
  string: z.string().nullable().describe("Name of the trompette string; null where no instrument was named"),
  targetHz: value,
  sounding: z.array(z.string()).describe("Other strings that sound along"),
  state: z
    .enum(["strokes", "continuous", "none", "unclear"])
    .describe("unclear: sudden sounds that may be strokes, see doubt and possibleSeconds"),
  doubt: z.enum(["few", "notes", "knocks", "no-pace"]).nullable(),
  possibleSeconds: z.array(z.number()),
  bandHz: intervalSchema.nullable().describe("Where the buzz was looked for"),
  soundingSeconds: z.number(),
  silentSeconds: z.number().describe("Of these without buzz"),
  strokes: z.array(
    z.object({
      onsetSeconds: z
        .number()
        .describe(
          "Where the buzz is first heard: its first knock of half the usual amplitude or more; of one without separate knocks, where its amplitude passes half of its rise",
        ),
      withinSeconds: z.number().describe("95 of 100 onsets like it lie this near to the truth"),
      rough: z
        .boolean()
        .describe(
          "Why it is not known better. true: it is not sure which of several knocks is the first loud enough to count; false: noise, or other strings",
        ),
      strokeSeconds: z
        .number()
        .describe(
          "Where the wheel's stroke begins, by the rise of the whole buzz: pace and evenness are of these",
        ),
      strokeWithinSeconds: z.number().describe("95 of 100 strokes like it lie this near to the truth"),
      durationSeconds: z.number().describe("From the onset to where it falls below half, or to the next one"),
      strengthDb: value.describe(
        "Power added above 1 kHz, over that of the drone's own tone; null where none is left over",
      ),
      weak: z.boolean().describe("6 dB or more below the median stroke"),
    }),
  ),
  strengthAgainst: z
    .enum(["own-tone", "all-strings"])
    .describe("all-strings: others sound along, and strengths are against all of them together"),
  strengthDb: meanSchema,
  strengthSpreadDb: spreadSchema,
  meanDurationSeconds: meanSchema,
  strokesPerSecond: value,
  timingSpreadSeconds: spreadSchema.describe(
    "Of single strokes of the wheel about the middle between their neighbours",
  ),
  missedSeconds: z.array(z.number()).describe("Where a stroke was due and none was found"),
  turnsPerSecond: value,
  turnsInterval95: intervalSchema.nullable(),
  turnsBasis: z.enum(["counted", "silent-part"]).nullable(),
  turnRefusal: z.enum(["no-strokes", "no-silence", "no-swing"]).nullable(),
  strokesPerTurn: value,
  silentPitch: pitchSchema,
  buzzingPitch: pitchSchema,
  differenceCents: meanSchema.describe("Buzzing less silent"),
  pitchRefusal: z.enum(["shared-partials", "not-followed", "too-short"]).nullable(),
  otherSounds: z.array(
    z.object({ seconds: z.number(), reason: z.enum(["note", "knock", "unlike", "alone"]) }),
  ),
  upperShareDb: value.describe("Power above 1 kHz over that below, where nothing buzzes"),
  findings: z.array(findingSchema),
  inShort: z.array(z.string()).describe("The answer in plain words; its wording may change"),
});

/** The document as typed by its schema. */
export type TrompetteDocument = z.infer<typeof trompetteDocumentSchema>;
