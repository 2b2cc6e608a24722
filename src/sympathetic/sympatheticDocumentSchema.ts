import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { encodingSchema } from "../document/encodingSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { targetSettings } from "../document/targetSettings.js";

const pluckSchema = z.object({
  onsetSeconds: z.number().describe("The moment of the pluck"),
  startSeconds: z.number().describe("Beginning and end of the stretch it was read in"),
  endSeconds: z.number(),
  frequencyHz: z.number(),
  standardDeviationCents: z.number().describe("Of the frequency, from this pluck alone"),
  inharmonicity: z.number().nullable(),
  decaySeconds: z.number(),
  glideCents: z.number().describe("By how much it was sharp of the settled pitch, 50 ms after the pluck"),
  glideStandardDeviationCents: z.number(),
  splitHz: z
    .number()
    .nullable()
    .describe("Between the two modes of the first partial; null where one explains it"),
  partialCount: z.int(),
  levelDb: z.number().describe("Power mean of the channels; a full-scale sine is 0 dB"),
});

const stringSchema = z.object({
  name: z.string(),
  role: z.enum(["melody", "drone", "trompette", "sympathetic"]).nullable(),
  note: z.string(),
  targetHz: z.number(),
  status: z.enum(["measured", "not-heard"]),
  frequencyHz: z
    .number()
    .nullable()
    .describe("Of the first partial, f0 sqrt(1 + B), settled: without the glide of the pluck"),
  deviationCents: z.number().nullable().describe("From the target, sharp positive"),
  interval95Cents: intervalSchema.nullable(),
  inharmonicity: z.number().nullable().describe("B in f_n = n f0 sqrt(1 + B n^2)"),
  inharmonicityInterval95: intervalSchema.nullable(),
  octaveStretchCents: z.number().nullable().describe("Second partial over an octave above the first"),
  decaySeconds: z.number().nullable().describe("Time in which the first partial falls by 60 dB"),
  decayInterval95Seconds: intervalSchema.nullable(),
  answerCents: z
    .number()
    .nullable()
    .describe("A bowed note this far off makes it answer with half its power"),
  levelDb: z.number().nullable().describe("Holds how hard it was plucked"),
  spreadCents: z.number().nullable().describe("Standard deviation from pluck to pluck"),
  plucks: z.array(pluckSchema),
  findings: z.array(findingSchema),
});

/**
 * The JSON document of `sympathetic`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const sympatheticDocumentSchema = z.object({
  ...documentHead,
  instrument: z.string().nullable(),
  settings: z.object({ ...targetSettings, order: z.array(z.string()).nullable() }),
  file: z.string(),
  sampleRateHz: z.number(),
  channelCount: z.int(),
  encoding: encodingSchema,
  durationSeconds: z.number(),
  strings: z.array(stringSchema),
  strays: z
    .array(
      z.object({
        onsetSeconds: z.number(),
        frequencyHz: z.number(),
        note: z.string(),
        deviationCents: z.number(),
      }),
    )
    .describe("Plucks that are none of the strings, with the nearest note of equal temperament"),
  pluckSpreadCents: z
    .number()
    .nullable()
    .describe("From pluck to pluck, over all strings; null where none was plucked twice"),
  findings: z.array(findingSchema),
  inShort: z.array(z.string()).describe("What to do; its wording may change"),
});

/** The JSON document of `sympathetic`. */
export type SympatheticDocument = z.infer<typeof sympatheticDocumentSchema>;
