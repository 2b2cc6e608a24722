import { resolve } from "node:path";
import { filesMatching } from "./files/filesMatching.js";
import { UsageError } from "./UsageError.js";

/** Options that name the sides of a comparison. */
export interface SideChoice {
  readonly a?: readonly string[];
  readonly b?: readonly string[];
  readonly aName?: string;
  readonly bName?: string;
  /** As typed: `NAME=GLOB`. */
  readonly side?: readonly string[];
}

/** A side and the files of its takes. */
export interface NamedSide {
  readonly name: string;
  readonly paths: readonly string[];
}

/**
 * The sides that the options name, `--a` and `--b` first. A pattern in `--side` is expanded here, since the shell sees only
 * `NAME=...`; in `--a` and `--b` it is where the shell left one (Windows).
 *
 * @throws UsageError with the sentence to print
 */
export function chooseSides(choice: SideChoice): NamedSide[] {
  if (choice.a === undefined && choice.aName !== undefined) throw new UsageError("--a-name needs --a.");
  if (choice.b === undefined && choice.bName !== undefined) throw new UsageError("--b-name needs --b.");
  const named = [
    ...(choice.a === undefined ? [] : [{ name: choice.aName ?? "A", paths: expanded("--a", choice.a) }]),
    ...(choice.b === undefined ? [] : [{ name: choice.bName ?? "B", paths: expanded("--b", choice.b) }]),
    ...(choice.side ?? []).map(sideOf),
  ];
  const sides = named.map(({ name, paths }) => ({ name: name.trim(), paths }));
  if (sides.length < 2) {
    throw new UsageError(
      "Name two sides at least: --a TAKE.wav... --b TAKE.wav..., or --side NAME=PATTERN several times.",
    );
  }
  if (sides.some(({ name }) => name === "")) throw new UsageError("Give each side a name.");
  const names = sides.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined)
    throw new UsageError(`Two sides are called "${twice}". Give each a name of its own.`);
  const paths = sides.flatMap((side) => side.paths);
  const places = paths.map((path) => resolve(path));
  const repeated = paths.find((_, i) => places.indexOf(places[i]) !== i);
  if (repeated !== undefined) {
    throw new UsageError(`${repeated} is named twice. Each take counts once, on one side.`);
  }
  return sides;
}

function sideOf(text: string): NamedSide {
  const [, name, pattern] = /^([^=]+)=(.+)$/su.exec(text) ?? [];
  if (name === undefined || pattern === undefined) {
    throw new UsageError(
      `--side is written NAME=PATTERN, such as --side short=takes/short-*.wav; "${text}" is not.`,
    );
  }
  return { name, paths: expanded(`--side ${name.trim()}`, [pattern]) };
}

function expanded(option: string, given: readonly string[]): string[] {
  return given.flatMap((path) => {
    const found = filesMatching(path);
    if (found.length === 0) throw new UsageError(`${option}: no file matches ${path}.`);
    return found;
  });
}
