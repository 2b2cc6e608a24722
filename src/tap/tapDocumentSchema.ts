import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { encodingSchema } from "../document/encodingSchema.js";
import { failedSchema } from "../document/failedSchema.js";
import { findingSchema } from "../document/findingSchema.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { soundSettings } from "../document/soundSettings.js";

const value = z.number().nullable();
const interval = intervalSchema.nullable();

const valueSchema = z.object({
  value: z.number(),
  interval95: intervalSchema,
  spread: value.describe("Standard deviation over the taps that show it by themselves"),
});

const modeSchema = z.object({
  frequencyHz: z.number().describe("At which it rings"),
  frequencyInterval95Hz: intervalSchema,
  frequencySpreadHz: value,
  note: z.string().describe("Nearest equal-tempered note, A4 = 440 Hz"),
  cents: z.number().describe("From that note, + is sharp"),
  q: z.number().describe("Frequency over bandwidth"),
  qInterval95: intervalSchema,
  qSpread: value,
  bandwidthHz: z.number().describe("At half power"),
  decaySeconds: z.number().describe("To 1/e: Q / (pi f)"),
  t60: valueSchema.describe("Seconds in which it falls by 60 dB"),
  strengthDb: z.number().describe("Amplitude as the tap begins, against the strongest mode"),
  strengthInterval95Db: interval,
  strengthSpreadDb: value,
  tapsFound: z.int().min(0),
  overlapping: z.boolean().describe("A neighbour stands closer than the wider of the two is at half power"),
  byTap: z
    .array(z.object({ frequencyHz: z.number(), q: z.number(), strengthDb: z.number() }).nullable())
    .describe("One for each tap used; null where that tap does not show the mode by itself"),
});

const takeSchema = z.object({
  file: z.string(),
  name: z.string().describe("As asked for with --name or --other-name, else the file"),
  sampleRateHz: z.number(),
  channelCount: z.int().min(1),
  encoding: encodingSchema,
  durationSeconds: z.number(),
  taps: z.array(
    z.object({
      atSeconds: z.number(),
      peakDb: z.number().describe("Relative to full scale"),
      leftOut: z.enum(["too-close", "disturbed", "clipped", "beyond-limit"]).nullable(),
    }),
  ),
  tapsUsed: z.int().min(0),
  modes: z.array(modeSchema),
  leftOut: z.array(
    z.object({ frequencyHz: z.number(), q: value, reason: z.enum(["string", "steady", "unclear"]) }),
  ),
  response: z.array(z.object({ frequencyHz: z.number(), levelDb: value, interval95Db: interval })),
  explainedShare: value.describe("Of the taps' energy, by modes and what was left out, 0 to 1"),
  roomDb: value.describe("What does not follow the law of decaying modes, against the rest"),
  peakToNoiseDb: value,
  findings: z.array(findingSchema),
});

const differenceSchema = z.object({
  difference: z.number().describe("The first body minus the other"),
  interval95: interval,
  pAdjusted: value.describe("Holm-adjusted over all differences"),
  shown: z.boolean(),
});

const bandSchema = z.object({
  frequencyHz: z.number(),
  tappedDb: value,
  tappedInterval95Db: interval,
  bowedDb: value,
  bowedInterval95Db: interval,
  peak: z
    .enum(["both", "tapped", "bowed", "unclear"])
    .nullable()
    .describe("unclear: one has a peak, and the other can't say"),
  modesHz: z.array(z.number()),
});

/**
 * The JSON document of `tap`, version 1. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const tapDocumentSchema = z.object({
  ...documentHead,
  takes: z.array(takeSchema),
  failed: z.array(failedSchema),
  comparison: z
    .object({
      a: z.string(),
      b: z.string(),
      pairs: z.array(
        z.object({
          frequencyHzA: z.number(),
          frequencyHzB: z.number(),
          frequencyPercent: z.number(),
          cents: differenceSchema,
          qPercent: differenceSchema.describe("Of the Q of the other body"),
          strengthDb: differenceSchema.describe("Each counted from the mean of its matched modes"),
        }),
      ),
      onlyA: z.array(z.number()).describe("Frequencies of modes without a counterpart"),
      onlyB: z.array(z.number()),
    })
    .nullable()
    .describe("The first take against that of --other"),
  bowed: z
    .object({
      file: z.string(),
      instrument: z.string().nullable(),
      settings: z.object(soundSettings),
      bands: z.array(bandSchema),
      lacking: z
        .enum(["no-response", "no-body-curve", "too-few-partials", "strings-not-connected", "no-reference"])
        .nullable()
        .describe("Why there is nothing to lay over each other"),
      findings: z.array(findingSchema),
    })
    .nullable()
    .describe("The first take over the body curve of --bowed"),
  inShort: z.array(z.string()).describe("The answer in plain words"),
});

/** The document as typed by its schema. */
export type TapDocument = z.infer<typeof tapDocumentSchema>;
