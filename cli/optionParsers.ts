import { InvalidArgumentError } from "commander";

/** A number of hertz, with a decimal point. */
export function parseHertz(text: string): number {
  if (!/^\d+(\.\d+)?$/.test(text))
    throw new InvalidArgumentError("Write a number of hertz, such as 440 or 442.5.");
  return Number(text);
}

/** A number of millimetres, with a decimal point. */
export function parseMillimetres(text: string): number {
  if (!/^\d+(\.\d+)?$/.test(text))
    throw new InvalidArgumentError("Write a number of millimetres, such as 345 or 345.5.");
  return Number(text);
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
