import type { Pole } from "./Pole.js";
import type { PoleError } from "./poleErrors.js";
import type { LeftOutVibration } from "./TapReading.js";

/** Within a second a line that falls by less than this each second stands still. */
const STEADY_DECAY = 0.5;
/** Wooden bodies have Q of 10 to 60 in their low modes, seldom up to 100 (common practice, no source); strings have hundreds. */
const STRING_Q = 150;
/** A vibration of at least this Q that fits into the series of a ringing string is one of its partials. */
const PARTIAL_Q = 80;
const SERIES = 12;
const IN_TUNE = 0.004;
/** Less sure than this it is not printed as a mode. */
const SURE_LN_Q = 0.25;
const SURE_LN_FREQUENCY = 0.02;

/** What a vibration is taken for. */
export type PoleKind = "mode" | LeftOutVibration["reason"];

/** Tells modes from steady lines, ringing strings and what is not sure, by Q and by how surely it is known. */
export function judgePoles(
  poles: readonly Pole[],
  errors: readonly PoleError[],
  tapsFound: readonly number[],
  tapCount: number,
): PoleKind[] {
  const qOf = ({ frequencyHz, decay }: Pole) => (Math.PI * frequencyHz) / Math.max(decay, 1e-9);
  const strings = poles.filter((pole) => pole.decay >= STEADY_DECAY && qOf(pole) > STRING_Q);
  const isPartial = ({ frequencyHz }: Pole) =>
    strings.some(({ frequencyHz: other }) => inSeries(frequencyHz, other) || inSeries(other, frequencyHz));
  return poles.map((pole, k) => {
    if (pole.decay < STEADY_DECAY) return "steady";
    if (qOf(pole) > STRING_Q || (qOf(pole) > PARTIAL_Q && isPartial(pole))) return "string";
    const { lnFrequency, lnQ } = errors[k]!;
    const isSure = lnQ < SURE_LN_Q && lnFrequency < SURE_LN_FREQUENCY;
    return isSure && tapsFound[k]! >= Math.min(2, tapCount) ? "mode" : "unclear";
  });
}

function inSeries(upperHz: number, lowerHz: number): boolean {
  const number = Math.round(upperHz / lowerHz);
  return number >= 1 && number <= SERIES && Math.abs(upperHz / (number * lowerHz) - 1) < IN_TUNE;
}
