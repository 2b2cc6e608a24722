import { fitJointly } from "../../src/partials/joint/fitJointly.js";
import { median } from "../../src/signal/median.js";
import { readMixturePart } from "../../src/strings/readMixturePart.js";
import { cents } from "../../src/units/cents.js";
import type { SumOfNotes } from "./sumOfNotes.js";

/** Nominal pitches are looked for this far about; the notes stand within 17 cents of them. */
const SPAN_CENTS = 40;

/** What became of one note of a sum. */
export interface NoteError {
  readonly label: string;
  /** Off the note's own frequency, without sign. */
  readonly errorCents: number;
}

/** Errors of `fitJointly`, told which notes sound, from starts at their nominal pitch. */
export interface FitErrors {
  readonly followed: readonly NoteError[];
  /** Fits that say of themselves that they could not follow the string: no reading is made of them. */
  readonly notFollowed: readonly NoteError[];
}

export function fitErrors(sums: readonly SumOfNotes[]): FitErrors {
  const all = sums.flatMap((sum) => {
    const starts = sum.notes.map(({ nominalHz }) => nominalHz);
    const fits = fitJointly(sum.segment, sum.startSeconds, sum.endSeconds, starts, SPAN_CENTS);
    return fits.map((fit, i) => ({ followed: fit.followed, ...noteError(sum, i, fit.frequencyHz) }));
  });
  return { followed: all.filter((one) => one.followed), notFollowed: all.filter((one) => !one.followed) };
}

/** Errors of what would be told of a passage in which these notes were named as sounding. */
export interface ReadErrors {
  /** Read without a word of doubt. */
  readonly plain: readonly NoteError[];
  /** Read with a finding beside it. */
  readonly doubted: readonly NoteError[];
  /** Notes of which nothing was read, those that need a longer take among them. */
  readonly unreadCount: number;
}

export function readErrors(sums: readonly SumOfNotes[]): ReadErrors {
  let unreadCount = 0;
  const all = sums.flatMap((sum) => {
    const targets = sum.notes.map(({ name, nominalHz }) => ({
      name,
      note: name,
      role: "drone" as const,
      targetHz: nominalHz,
    }));
    const given = sum.notes.map((_, i) => i);
    const found =
      readMixturePart({ segment: sum.segment, levelScale: 1, others: [] }, sum, targets, given, []).mixed
        ?.strings ?? [];
    const read = found.filter(({ neededSeconds }) => neededSeconds === null);
    unreadCount += sum.notes.length - read.length;
    return read.map(({ targetIndex, reading }) => ({
      doubted: reading.findings.length > 0,
      ...noteError(sum, targetIndex, reading.frequencyHz),
    }));
  });
  return {
    plain: all.filter(({ doubted }) => !doubted),
    doubted: all.filter(({ doubted }) => doubted),
    unreadCount,
  };
}

function noteError({ notes, levelsDb, truthsHz }: SumOfNotes, i: number, frequencyHz: number): NoteError {
  const levels = notes.map(({ name }, k) => `${name} ${levelsDb[k]} dB`).join(" + ");
  return { label: `${notes[i].name} in ${levels}`, errorCents: Math.abs(cents(frequencyHz, truthsHz[i])) };
}

export function medianCents(errors: readonly NoteError[]): number {
  return median(errors.map(({ errorCents }) => errorCents));
}

/**
 * The errors of this many cents and more in words, so that a failing test names them; of those known to be so far off only
 * what is no longer.
 */
export function worseThan(
  limitCents: number,
  errors: readonly NoteError[],
  known: readonly string[] = [],
): string[] {
  const worse = errors.filter(({ errorCents }) => !(errorCents < limitCents));
  return [
    ...worse
      .filter(({ label }) => !known.includes(label))
      .map(({ errorCents, label }) => `${errorCents.toFixed(2)} cents: ${label}`),
    ...known
      .filter((label) => worse.every((one) => one.label !== label))
      .map((label) => `no longer: ${label}`),
  ];
}
