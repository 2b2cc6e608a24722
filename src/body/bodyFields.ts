import * as z from "zod";
import { intervalSchema } from "../document/intervalSchema.js";

const level = z.number().nullable();
const interval = intervalSchema.nullable();

/** How documents hold a body curve and how low it reaches. */
export const bodyFields = {
  bodyCurve: z
    .array(
      z.object({
        frequencyHz: z.number(),
        levelDb: level,
        interval95Db: interval,
        partialCount: z.int().min(0),
      }),
    )
    .describe(
      "One point a third-octave, against the middle from 355 to 1413 Hz; empty where it can't be had",
    ),
  bodyCurveLacking: z
    .enum(["too-few-partials", "strings-not-connected", "no-reference"])
    .nullable()
    .describe("Why there is no body curve"),
  lowReachHz: z.number().nullable(),
  lowReachIsAtOrBelow: z.boolean().nullable().describe("True where even the lowest partial passes"),
  lowReachRange95Hz: interval,
};
