import * as z from "zod";
import { documentHead } from "../document/documentHead.js";
import { intervalSchema } from "../document/intervalSchema.js";
import { targetSettings } from "../document/targetSettings.js";
import { parseMoment } from "./parseMoment.js";

const stringSchema = z.object({
  name: z.string(),
  role: z.enum(["melody", "drone", "trompette", "sympathetic"]).nullable(),
  targetHz: z.number().positive(),
  status: z.enum(["measured", "not-heard", "unresolved"]),
  frequencyHz: z.number().positive().nullable(),
  deviationCents: z.number().nullable().describe("From the target, sharp positive"),
  interval95Cents: intervalSchema
    .refine(([low, high]) => low <= high)
    .nullable()
    .describe("Of deviationCents"),
  levelDb: z.number().nullable().describe("Relative to a full-scale sine"),
});

/**
 * One line of a log of takes, version 1: what one take says of each string. The JSON Schema beside this file is made from it.
 *
 * Fields may be added within a version, none renamed or taken away; a value that can't be had is null, never 0.
 */
export const logLineSchema = z.object({
  schemaVersion: documentHead.schemaVersion,
  tool: documentHead.tool,
  kind: z.literal("take"),
  toolVersion: documentHead.toolVersion,
  instrument: z.string().nullable().describe("Name of the instrument or tuning; null where none was named"),
  file: z.string().describe("Name of the recording, without its folder"),
  takenAt: z
    .string()
    .refine((text) => parseMoment(text) !== null)
    .describe("Date, or date and time, by the clock on the wall: 2026-03-01 or 2026-03-01T14:30"),
  takenAtBasis: z.enum(["given", "file-time"]).describe("Said by the user, or the file's modification time"),
  temperatureC: z.number().nullable(),
  humidityPercent: z.number().nullable().describe("Relative humidity"),
  work: z.string().nullable().describe("Work done on the instrument before this take"),
  settings: z.object({ ...targetSettings, lowEdgeHz: z.number() }),
  strings: z
    .array(stringSchema)
    .refine((strings) => new Set(strings.map(({ name }) => name)).size === strings.length),
  lowRegisterDb: z.number().nullable().describe("Of the whole take"),
  findings: z.array(z.string()).describe("Codes of what was found about the take and its strings"),
});

/** A take as the log holds it. */
export type LoggedTake = z.infer<typeof logLineSchema>;
