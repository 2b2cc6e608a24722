import * as z from "zod";

/** How documents hold a take that gave nothing, with the reason. */
export const failedSchema = z.object({ file: z.string(), code: z.string(), message: z.string() });
