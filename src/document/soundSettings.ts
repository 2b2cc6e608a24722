import * as z from "zod";
import { targetSettings } from "./targetSettings.js";

/** The same and which strings are looked for. */
export const soundSettings = {
  ...targetSettings,
  order: z.array(z.string()).nullable(),
  sounding: z.array(z.string()).nullable(),
};
