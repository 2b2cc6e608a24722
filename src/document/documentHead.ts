import * as z from "zod";

/** First fields of every document. Fields may be added within a version, none renamed or taken away. */
export const documentHead = {
  schemaVersion: z.literal(1),
  tool: z.literal("gurdybench"),
  toolVersion: z.string(),
};
