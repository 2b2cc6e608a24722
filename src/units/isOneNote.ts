import { cents } from "./cents.js";

/** Tempered and pure pitches of one note lie up to 22 cents apart; neighbouring notes 76 and more. */
const ONE_NOTE_CENTS = 30;

/** True for two targets, in hertz, that are the same note: pure or tempered, whatever the temperament. */
export function isOneNote(aHz: number, bHz: number): boolean {
  return Math.abs(cents(aHz, bHz)) < ONE_NOTE_CENTS;
}
