import type { WheelDocument } from "../wheel/wheelDocumentSchema.js";
import { printable } from "./printable.js";

type PassageDocument = WheelDocument["passages"][number];

/** What of pitch and level does not come round with the wheel, in sentences. */
export function wheelLeftOver({ strings, rateSpread }: PassageDocument): string[] {
  const each = strings.map(
    ({ name, pitch, level }) =>
      `${printable(name)}: slow drift ${pitch.drift.toFixed(2)} cents and ${level.drift.toFixed(2)} dB, quick unrest ` +
      `${pitch.jitter.toFixed(2)} cents and ${level.jitter.toFixed(2)} dB.`,
  );
  const crank =
    rateSpread === null ? "" : `The rate itself wandered by ${(100 * rateSpread).toFixed(1)} % in the take.`;
  return [
    ...each,
    `${crank} These are standard deviations and describe this take, so they have no interval; slow is slower than a turn.`,
  ];
}
