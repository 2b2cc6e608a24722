import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { wrapText } from "./wrapText.js";

/** The wheel in one sentence, where a swing is shown; nothing otherwise. */
export function wheelLine(wheel: MeasureDocument["takes"][number]["wheel"], width: number): string[] {
  if (wheel?.turnsPerSecond === null || wheel?.turnsPerSecond === undefined) return [];
  const { turnsPerSecond, pitchSwingCents, levelSwingDb } = wheel;
  const swings = [
    pitchSwingCents === null ? "" : `the pitch by ${pitchSwingCents.toFixed(1)} cents`,
    levelSwingDb === null ? "" : `the level by ${levelSwingDb.toFixed(1)} dB`,
  ].filter((text) => text !== "");
  return wrapText(
    `${turnsPerSecond.toFixed(2)} turns a second, and with each turn swings ${swings.join(" and ")} to either side. Medians over the ` +
      "passages; by string, with intervals, and what to try: gurdybench wheel.",
    width,
    "  ",
  );
}
