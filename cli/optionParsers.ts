import { InvalidArgumentError } from "commander";

/** A number of hertz, with a decimal point. */
export function parseHertz(text: string): number {
  if (!/^\d+(\.\d+)?$/.test(text))
    throw new InvalidArgumentError("Write a number of hertz, such as 440 or 442.5.");
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

/** Names with commas between them. */
export function parseNames(text: string): string[] {
  const names = text.split(",").map((name) => name.trim());
  if (names.includes(""))
    throw new InvalidArgumentError("Write names with commas between them, such as G4,G4 2.");
  return names;
}
