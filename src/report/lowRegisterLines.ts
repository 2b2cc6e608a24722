import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { signed } from "./signed.js";
import { wrapText } from "./wrapText.js";

type LowRegister = NonNullable<MeasureDocument["takes"][number]["lowRegister"]>;

/** The low register of one take in plain words. */
export function lowRegisterLines(low: LowRegister, width: number): string[] {
  const bands = Object.entries(low.octaveBandsDb)
    .sort(([a], [b]) => Number(a) - Number(b))
    .map(([band, levelDb]) => `${band}\u00a0Hz\u00a0${levelDb === null ? "-" : levelDb.toFixed(1)}`);
  const lines = [
    low.lowRegisterDb === null
      ? "Low part against the rest: can't be had, no partial falls below 178 Hz."
      : `Low part (44.7 to 178 Hz) against the rest (178 to 2818 Hz): ${signed(low.lowRegisterDb, 1)} dB.`,
    `Octave bands, dB against their sum (- where nothing sounds): ${bands.join(", ")}.`,
    low.centroidHz === null ? "" : `Middle of the sound's energy: ${low.centroidHz.toFixed(0)} Hz.`,
    low.lowRegisterDb === null
      ? ""
      : "How surely: can't be had from one take. Place player and microphone anew and measure several takes " +
        "together. Room, microphone and strings are all in these numbers.",
  ];
  return lines
    .filter((line) => line !== "")
    .flatMap((line) => wrapText(line, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}
