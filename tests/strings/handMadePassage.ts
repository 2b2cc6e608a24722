import type { MeasuredPassage } from "../../src/strings/MeasuredPassage.js";
import type { StringReading } from "../../src/strings/StringReading.js";
import { cents } from "../../src/units/cents.js";

/** A passage of 4 s from `startSeconds` on, +-0.1 cents, with one partial, unless told otherwise. */
export function passageAt(
  startSeconds: number,
  frequencyHz: number,
  rest: Partial<MeasuredPassage> & { halfWidthCents?: number | null; unsteadinessCents?: number } = {},
): MeasuredPassage {
  const { halfWidthCents = 0.1, unsteadinessCents = 1, ...others } = rest;
  return {
    startSeconds,
    endSeconds: startSeconds + 4,
    frequencyHz,
    steadiness: {
      interval95Cents: halfWidthCents === null ? null : [-halfWidthCents, halfWidthCents],
      unsteadinessCents,
      swingCents: null,
      swingRateHz: null,
    },
    partials: [{ number: 1, power: 0.01, signalToNoise: 1000 }],
    noisePower: 1e-6,
    frameCentroidHz: 500,
    findings: [],
    ...others,
  };
}

/** A measured string of which only name, pitch and interval are of interest. */
export function stringAt(
  name: string,
  frequencyHz: number | null,
  targetHz: number,
  halfWidthCents: number | null = 0.2,
): StringReading {
  const deviationCents = frequencyHz === null ? null : cents(frequencyHz, targetHz);
  return {
    name,
    role: null,
    targetHz,
    status: frequencyHz === null ? "not-heard" : "measured",
    frequencyHz,
    deviationCents,
    interval95Cents:
      deviationCents === null || halfWidthCents === null
        ? null
        : [deviationCents - halfWidthCents, deviationCents + halfWidthCents],
    ownErrorCents: null,
    ownErrorInterval95Cents: null,
    unsteadinessCents: null,
    levelDb: null,
    harmonicToNoiseDb: null,
    partials: [],
    lowRegisterDb: null,
    octaveBandsDb: null,
    centroidHz: null,
    frameCentroidHz: null,
    tristimulus: null,
    oddToEvenDb: null,
    perPassage: [],
    findings: [],
  };
}

/** A frequency moved by cents. */
export function movedHz(frequencyHz: number, byCents: number): number {
  return frequencyHz * 2 ** (byCents / 1200);
}
