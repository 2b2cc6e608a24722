import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { logLineSchema } from "./logLineSchema.js";

const interval = intervalSchema.nullable();
const line = z.object({ line: z.int().min(1) });
const logged = logLineSchema.shape;

const trendSchema = z.object({
  slope: z.number().nullable().describe("Cents a day, degree Celsius or percent of relative humidity"),
  interval95: interval,
  takeCount: z.int().min(0),
  lacking: z
    .enum(["too-few", "no-range", "no-scatter", "too-few-strings"])
    .nullable()
    .describe("Why there is no slope"),
});
const trends = {
  perDay: trendSchema.describe("Straight line; each stretch between work has a level of its own"),
  perDegreeC: trendSchema.describe("Goes with temperature; not caused by it for sure"),
  perPercentHumidity: trendSchema.describe("Goes with humidity; not caused by it for sure"),
};

const changeSchema = z.object({
  fromTake: z.int().min(0).describe("Place of the earlier take in takes"),
  days: z.number(),
  cents: z.number().describe("Of the pitch itself, whatever the targets; sharp positive"),
  interval95Cents: interval,
  othersCents: z.number().nullable().describe("Median of what the other strings did in between"),
  othersInterval95Cents: interval,
  ownCents: z.number().nullable().describe("Its change less theirs"),
  ownInterval95Cents: interval,
  verdict: z.enum(["stood", "apart", "with-others", "alone", "both", "unclear", "unsure"]),
});

const stringSchema = z.object({
  name: z.string(),
  role: z.enum(["melody", "drone", "trompette", "sympathetic"]).nullable(),
  targetHz: z.number().describe("Of the last take that heard it"),
  takes: z.array(
    z.object({
      take: z.int().min(0).describe("Place in takes"),
      targetHz: z.number(),
      frequencyHz: z.number(),
      deviationCents: z.number().describe("From the target of this take, sharp positive"),
      interval95Cents: interval,
      levelDb: z.number().nullable(),
      cents: z.number().describe("From the target of the last take that heard it"),
      change: changeSchema.nullable(),
      changeLacking: z.enum(["first", "other-note"]).nullable(),
    }),
  ),
  latest: z
    .object({ take: z.int().min(0), change: changeSchema })
    .nullable()
    .describe("From the last take of an earlier day to its last take"),
  ...trends,
  ownPerDay: trendSchema.describe("Drift a day beyond what the other strings have in common"),
});

const differenceSchema = z.object({
  difference: z.number().nullable().describe("After less before; cents or decibels"),
  interval95: interval,
  basis: z
    .enum(["welch", "read"])
    .nullable()
    .describe("welch: takes are the sample; read: only how surely each take is read"),
  beforeCount: z.int().min(0),
  afterCount: z.int().min(0),
  lacking: z.enum(["nothing-before", "nothing-after", "no-interval", "other-sounds"]).nullable(),
});

const instrumentSchema = z.object({
  name: z.string().nullable().describe("Null for takes that named no instrument"),
  takes: z.array(
    z.object({
      file: logged.file,
      takenAt: z.string(),
      takenAtBasis: logged.takenAtBasis,
      temperatureC: logged.temperatureC,
      humidityPercent: logged.humidityPercent,
      work: logged.work,
      settings: logged.settings,
      lowRegisterDb: logged.lowRegisterDb,
      findings: logged.findings,
      commonCents: z
        .number()
        .nullable()
        .describe("What all strings have in common, the first take being 0; null for fewer than three"),
    }),
  ),
  strings: z.array(stringSchema),
  common: z.object(trends).describe("Of what all strings have in common"),
  works: z.array(
    z.object({
      work: z.string(),
      take: z.int().min(0).describe("First take after it"),
      days: z.number().nullable().describe("Between the mean dates of both sides"),
      common: differenceSchema.describe("Of what all strings have in common"),
      strings: z.array(
        differenceSchema.extend({
          name: z.string(),
          own: differenceSchema.describe("Beyond what the other strings have in common"),
        }),
      ),
      lowRegisterDb: differenceSchema,
    }),
  ),
  doubtfulDays: z.array(z.string()).describe("Days on which the order of work and takes can't be told"),
  inShort: z.array(z.string()).describe("Sentences for people; their wording may change"),
});

/**
 * The JSON document of `history`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const historyDocumentSchema = z.object({
  ...documentHead,
  log: z.string().describe("The file that was read"),
  settings: z.object({ strings: z.array(z.string()).nullable(), since: z.string().nullable() }),
  problems: z
    .array(
      line.extend({
        reason: z.enum(["half-written", "damaged", "not-json", "not-a-take", "newer-version", "too-long"]),
        message: z.string(),
      }),
    )
    .describe("Lines that could not be used"),
  repeats: z
    .array(line.extend({ sameAsLine: z.int().min(1) }))
    .describe("Lines that hold a take which is counted already"),
  instruments: z.array(instrumentSchema),
});

/** The document as typed by its schema. */
export type HistoryDocument = z.infer<typeof historyDocumentSchema>;
