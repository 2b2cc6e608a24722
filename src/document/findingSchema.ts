import * as z from "zod";

/** How documents hold a finding, with its sentence. */
export const findingSchema = z.object({
  code: z.string().describe("Stable plain-word code"),
  severity: z.enum(["info", "warning", "problem"]),
  values: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
  message: z.string().describe("A sentence for people; its wording may change"),
});
