import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { signed } from "./signed.js";
import { wrapText } from "./wrapText.js";

type LowRegister = NonNullable<MeasureDocument["takes"][number]["lowRegister"]>;

/** The low register of one take in plain words. */
export function lowRegisterLines(low: LowRegister, lowEdgeHz: number, width: number): string[] {
  const edge = lowEdgeHz.toFixed(0);
  const bands = Object.entries(low.octaveBandsDb)
    .sort(([a], [b]) => Number(a) - Number(b))
    .map(([band, levelDb]) => `${band}\u00a0Hz\u00a0${levelDb === null ? "-" : levelDb.toFixed(1)}`);
  const middle = low.centroidHz === null ? "" : `; middle of the energy ${low.centroidHz.toFixed(0)} Hz`;
  const lines = [
    low.lowRegisterDb === null
      ? `Below ${edge} Hz against the rest: can't be had, no partial falls there${middle}.`
      : `44.7-${edge} Hz against ${edge}-2818 Hz: ${signed(low.lowRegisterDb, 1)} dB${middle}.`,
    `Octave bands, dB against their sum: ${bands.join(", ")}.`,
    low.lowRegisterDb === null
      ? ""
      : "How surely: only several takes tell, player and microphone placed anew.",
  ];
  return lines
    .filter((line) => line !== "")
    .flatMap((line) => wrapText(line, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}
