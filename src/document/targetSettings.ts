import * as z from "zod";

/** Settings that targets follow from, as every document with targets holds them. */
export const targetSettings = {
  a4Hz: z.number(),
  tonic: z.string().nullable(),
  temperament: z.string().nullable(),
  tuning: z.string().nullable().describe("Name of the built-in tuning, where one was used"),
  capo: z.record(z.string(), z.number()),
};
