import * as z from "zod";

/** Lower and upper end of an interval. */
export const intervalSchema = z.tuple([z.number(), z.number()]);
