import { differenceInterval } from "../strings/differenceInterval.js";
import { cents } from "../units/cents.js";
import type { SingleChange } from "./compareChange.js";
import type { StringMoment } from "./HistoryReading.js";
import type { PlacedTake } from "./takesInOrder.js";

/** A target that moved by more is another note: a capo, another tuning. An A4 of 415 instead of 440 is not. */
const OTHER_NOTE_CENTS = 60;

/** A string in one take, its change not yet set beside those of the others. */
export interface SingleMoment extends Omit<StringMoment, "change"> {
  readonly change: SingleChange | null;
  /** Counts up where the string becomes another note. */
  readonly note: number;
  /** Counts up where the string becomes another note or work was done. */
  readonly stretch: number;
}

/** What the takes say of one string, in order of time; empty where none heard it. */
export function stringMoments(name: string, takes: readonly PlacedTake[]): SingleMoment[] {
  const heard = takes.flatMap((take, index) => {
    const string = take.strings.find((one) => one.name === name);
    if (string === undefined || string.status !== "measured" || string.frequencyHz === null) return [];
    return [{ take, index, string, frequencyHz: string.frequencyHz }];
  });
  const reference = heard.at(-1)?.string.targetHz ?? 1;
  const moments: SingleMoment[] = [];
  let [note, stretch] = [0, 0];
  for (const [i, { take, index, string, frequencyHz }] of heard.entries()) {
    const before = heard[i - 1];
    const isOtherNote = before !== undefined && isOther(before, { take, string });
    if (isOtherNote) note++;
    if (isOtherNote || (before !== undefined && before.take.stretch !== take.stretch)) stretch++;
    const change =
      before === undefined || isOtherNote
        ? null
        : {
            fromTake: before.index,
            days: take.moment.days - before.take.moment.days,
            cents: cents(frequencyHz, before.frequencyHz),
            interval95Cents: changeInterval(cents(frequencyHz, before.frequencyHz), string, before.string),
          };
    moments.push({
      take: index,
      targetHz: string.targetHz,
      frequencyHz,
      deviationCents: string.deviationCents ?? cents(frequencyHz, string.targetHz),
      interval95Cents: string.interval95Cents,
      levelDb: string.levelDb,
      cents: cents(frequencyHz, reference),
      change,
      changeLacking: before === undefined ? "first" : isOtherNote ? "other-note" : null,
      note,
      stretch,
    });
  }
  return moments;
}

type LoggedString = PlacedTake["strings"][number];
type Heard = { readonly take: PlacedTake; readonly string: LoggedString };

/** Whether the target moved by more than the pitch of A4 moves it. */
function isOther(before: Heard, now: Heard): boolean {
  const targets = cents(now.string.targetHz, before.string.targetHz);
  const reference = cents(now.take.settings.a4Hz, before.take.settings.a4Hz);
  return Math.abs(targets - reference) > OTHER_NOTE_CENTS;
}

/** Of the frequencies: the readings' own intervals, about the change that the frequencies give. */
function changeInterval(change: number, now: LoggedString, before: LoggedString): [number, number] | null {
  if (now.interval95Cents === null || before.interval95Cents === null) return null;
  const [low, high] = differenceInterval(now.interval95Cents, before.interval95Cents);
  return [change - (high - low) / 2, change + (high - low) / 2];
}
