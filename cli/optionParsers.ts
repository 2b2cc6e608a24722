import { InvalidArgumentError } from "commander";
import { logLimits, parseMoment, turnsPerSecondRange, workNote } from "../src/index.js";

/** A number of hertz, with a decimal point. */
export function parseHertz(text: string): number {
  if (!/^\d+(\.\d+)?$/.test(text))
    throw new InvalidArgumentError("Write a number of hertz, such as 440 or 442.5.");
  return Number(text);
}

/** Turns of the wheel a second, as counted. */
export function parseTurns(text: string): number {
  const turns = /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  const [least, most] = turnsPerSecondRange;
  if (turns >= least && turns <= most) return turns;
  throw new InvalidArgumentError(`Write turns a second from ${least} to ${most}, such as 1.5.`);
}

/** A number of millimetres, with a decimal point. */
export function parseMillimetres(text: string): number {
  if (!/^\d+(\.\d+)?$/.test(text))
    throw new InvalidArgumentError("Write a number of millimetres, such as 345 or 345.5.");
  return Number(text);
}

/** The number of a port. */
export function parsePort(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port >= 1 && port <= 65_535) return port;
  throw new InvalidArgumentError("Write a port from 1 to 65535, such as 4868.");
}

/** `NAME=SEMITONES`, added to those given before. */
export function parseCapo(
  text: string,
  before: ReadonlyMap<string, number> | undefined,
): Map<string, number> {
  const [, name, semitones] = /^(.+)=(\d{1,2})$/su.exec(text) ?? [];
  if (name === undefined || semitones === undefined) {
    throw new InvalidArgumentError("Write the string's name, = and the semitones, such as C4=2.");
  }
  return new Map(before).set(name, Number(semitones));
}

/** A positive number with a decimal point, of the unit that is named in the message. */
export function parsePositive(unit: string): (text: string) => number {
  return (text) => {
    if (!/^\d+(\.\d+)?$/.test(text) || !(Number(text) > 0))
      throw new InvalidArgumentError(`Write a number of ${unit}, such as 380 or 62.5.`);
    return Number(text);
  };
}

/** `NAME=NOTE`, added to those given before. */
export function parseRetune(
  text: string,
  before: ReadonlyMap<string, string> | undefined,
): Map<string, string> {
  const [, name, note] = /^(.+)=([^=]+)$/su.exec(text) ?? [];
  if (name === undefined || note === undefined) {
    throw new InvalidArgumentError("Write the string's name, = and its new note, such as C2=D2.");
  }
  return new Map(before).set(name, note);
}

/** Names with commas between them, kept as typed: only the instrument tells a comma within a name from one between two. */
export function parseNames(text: string, before: readonly string[] = []): string[] {
  if (text.split(",").some((name) => name.trim() === ""))
    throw new InvalidArgumentError("Write names with commas between them, such as G4,G4 2.");
  return [...before, text];
}

/** One name, once. */
export function parseAnchor(text: string, before: string | undefined): string {
  if (before !== undefined)
    throw new InvalidArgumentError(`Only one string can be the anchor, and "${before}" was named already.`);
  if (text.trim() === "") throw new InvalidArgumentError("Write the name of one string, such as G2.");
  return text;
}

/** A date, or a date with a time of day. */
export function parseDate(text: string): string {
  const moment = parseMoment(text);
  if (moment !== null) return moment.text;
  throw new InvalidArgumentError(
    'Write a date such as 2026-03-01, or with the time, such as "2026-03-01 14:30".',
  );
}

/** A number from one limit to another. */
export function parseWithin(minimum: number, maximum: number, unit: string): (text: string) => number {
  return (text) => {
    const value = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
    if (value >= minimum && value <= maximum) return value;
    throw new InvalidArgumentError(`Write ${unit} from ${minimum} to ${maximum}, such as 20 or 20.5.`);
  };
}

/** Words of one's own, on one line and not too many. */
export function parseNote(text: string): string {
  const note = workNote(text);
  if (note !== null) return note;
  throw new InvalidArgumentError(
    `Write what was done in a few words, ${logLimits.workCharacters} letters at the most.`,
  );
}

/** One name, added to those given before. */
export function parseName(text: string, before: readonly string[] = []): string[] {
  if (text.trim() === "") throw new InvalidArgumentError("Write the name of a string, such as G3.");
  return [...before, text];
}
