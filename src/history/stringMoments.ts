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
    const moment = {
      take: index,
      targetHz: string.targetHz,
      frequencyHz,
      deviationCents: string.deviationCents ?? cents(frequencyHz, string.targetHz),
      interval95Cents: string.interval95Cents,
      levelDb: string.levelDb,
      cents: cents(frequencyHz, reference),
      note,
      stretch,
    };
    const last = moments.at(-1);
    moments.push({
      ...moment,
      change: last === undefined || isOtherNote ? null : changeBetween(last, moment, takes),
      changeLacking: last === undefined ? "first" : isOtherNote ? "other-note" : null,
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

/**
 * What became of a string, as its last take has it, since the last take of an earlier day: takes of one session say little of drift. Where
 * all are of one day, since the take before.
 */
export function latestChange(
  moments: readonly SingleMoment[],
  takes: readonly PlacedTake[],
): { readonly take: number; readonly change: SingleChange } | null {
  const last = moments.at(-1);
  if (last === undefined) return null;
  const dayOf = ({ take }: SingleMoment) => Math.floor(takes[take]!.moment.days);
  const same = moments.filter(({ note }) => note === last.note);
  const before = same.filter((one) => dayOf(one) < dayOf(last)).at(-1) ?? same.at(-2);
  return before === undefined ? null : { take: last.take, change: changeBetween(before, last, takes) };
}

type ReadMoment = Pick<StringMoment, "take" | "frequencyHz" | "interval95Cents">;

/** Of the frequencies, whatever the targets; the range from the readings' own, about what the frequencies give. */
function changeBetween(before: ReadMoment, now: ReadMoment, takes: readonly PlacedTake[]): SingleChange {
  const change = cents(now.frequencyHz, before.frequencyHz);
  const read =
    now.interval95Cents && before.interval95Cents
      ? differenceInterval(now.interval95Cents, before.interval95Cents)
      : null;
  const half = read && (read[1] - read[0]) / 2;
  return {
    fromTake: before.take,
    days: takes[now.take]!.moment.days - takes[before.take]!.moment.days,
    cents: change,
    interval95Cents: half === null ? null : [change - half, change + half],
  };
}
