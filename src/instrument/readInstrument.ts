import type * as z from "zod";
import type { AnalysisError } from "../errors.js";
import { frequencyHzToMidi, midiToFrequencyHz } from "../units/midiFrequency.js";
import { noteNameOfMidi } from "../units/noteNameOfMidi.js";
import { parseNoteName } from "../units/parseNoteName.js";
import type { Instrument } from "./Instrument.js";
import { InstrumentYaml } from "./InstrumentYaml.js";
import { instrumentRanges } from "./instrumentRanges.js";
import { type InstrumentFile, instrumentSchema, knownKeysAt } from "./instrumentSchema.js";
import { likelyKey } from "./likelyKey.js";
import { nameStrings } from "./nameStrings.js";

type Path = readonly PropertyKey[];

/**
 * Reads an instrument file (YAML 1.2): the strings, their notes and the tuning they are meant to have.
 *
 * Each string needs a `role` and a `note` or `frequencyHz`; a string without `name` is called by its note
 * (`G4`, a second one `G4 2`). Left out, `a4Hz` is 440, `temperament` equal, `drones` pure (which matters
 * once there is a tonic), `offsetCents` 0, `capo` empty, `name` "unnamed". At most 64 Ki characters.
 *
 * @throws AnalysisError `instrument-invalid` with line and column (from 1) of the first problem in the file
 *
 * @example
 * ```ts
 * readInstrument("name: Small one\nstrings:\n  - { role: drone, note: G2 }\n").strings[0]?.name; // "G2"
 * ```
 */
export function readInstrument(yamlText: string): Instrument {
  const yaml = new InstrumentYaml(yamlText);
  const parsed = instrumentSchema.safeParse(yaml.value);
  if (!parsed.success) throw firstProblem(parsed.error.issues, yaml);
  const file = parsed.data;
  const at = (path: Path, problem: string) => yaml.errorAt(yaml.offsetOf(path), pathText(path), problem);

  const temperament = file.temperament ?? "equal";
  const tonic = file.tonic ?? null;
  if (temperament !== "equal" && tonic === null) {
    throw at(["temperament"], `${temperament} needs a tonic, such as tonic: G`);
  }
  const a4Hz = file.a4Hz ?? 440;
  const notes = file.strings.map((string, index) => noteOf(string, index, a4Hz, at));
  refuseRepeatedNames(file, at);
  const names = nameStrings(
    file.strings.map((string, index) => ({ name: string.name ?? null, note: notes[index] ?? "" })),
  );

  return {
    name: file.name ?? "unnamed",
    a4Hz,
    temperament,
    tonic,
    drones: file.drones ?? "pure",
    strings: file.strings.map((string, index) => ({
      name: names[index] ?? "",
      role: string.role,
      note: string.note ?? null,
      frequencyHz: string.frequencyHz ?? null,
      offsetCents: string.offsetCents ?? 0,
      lengthMm: string.lengthMm ?? null,
      keys: string.keys ?? null,
      capo: string.capo ?? [],
      linearDensityGramsPerMetre: string.linearDensityGramsPerMetre ?? null,
      massGrams: string.massGrams ?? null,
      cutLengthMm: string.cutLengthMm ?? null,
      diameterMm: string.diameterMm ?? null,
      material: string.material ?? null,
    })),
  };
}

type ErrorAt = (path: Path, problem: string) => AnalysisError;

/** The note a nameless string is called by, after checks that need more than one entry. */
function noteOf(string: InstrumentFile["strings"][number], index: number, a4Hz: number, at: ErrorAt): string {
  const path = ["strings", index];
  if (string.role !== "melody" && (string.keys ?? 0) > 0) {
    throw at([...path, "keys"], "only melody strings have keys");
  }
  if (string.frequencyHz !== undefined) {
    return string.note ?? noteNameOfMidi(frequencyHzToMidi(string.frequencyHz, a4Hz));
  }
  if (string.note === undefined) throw at(path, "needs note or frequencyHz");
  const [lowestHz, highestHz] = instrumentRanges.frequencyHz;
  const noteHz = midiToFrequencyHz(parseNoteName(string.note).midi, a4Hz);
  if (noteHz < lowestHz || noteHz > highestHz) {
    throw at([...path, "note"], `${string.note} is outside ${lowestHz} to ${highestHz} Hz`);
  }
  return string.note;
}

function refuseRepeatedNames(file: InstrumentFile, at: ErrorAt): void {
  const seen = new Set<string>();
  for (const [index, { name }] of file.strings.entries()) {
    if (name === undefined) continue;
    if (seen.has(name)) throw at(["strings", index, "name"], `${quoted(name)} names another string already`);
    seen.add(name);
  }
}

/** Of all the schema found, what stands first in the file: people mend a file from the top. */
function firstProblem(issues: readonly z.core.$ZodIssue[], yaml: InstrumentYaml): AnalysisError {
  const problems = issues.flatMap((issue) => {
    if (issue.code !== "unrecognized_keys") {
      const problem = valueProblem(issue.message, valueAt(yaml.value, issue.path));
      return [{ offset: yaml.offsetOf(issue.path), path: issue.path as Path, problem }];
    }
    return issue.keys.map((key) => ({
      offset: yaml.offsetOfKey(issue.path, key),
      path: [...issue.path, key] as Path,
      problem: unknownKeyProblem(key, knownKeysAt(issue.path)),
    }));
  });
  const first = problems.reduce((a, b) => (b.offset < a.offset ? b : a));
  return yaml.errorAt(first.offset, pathText(first.path), first.problem);
}

function valueProblem(wanted: string, given: unknown): string {
  if (given === undefined) return `is missing, ${wanted}`;
  if (given === null) return `${wanted}, not empty`;
  return typeof given === "object" ? wanted : `${wanted}, not ${quoted(given)}`;
}

function unknownKeyProblem(key: string, known: readonly string[]): string {
  const likely = likelyKey(key, known);
  if (likely !== null) return `unknown key, ${likely} is meant perhaps`;
  return `unknown key, known are ${known.join(", ")}`;
}

function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const step of path) {
    at = typeof at === "object" && at !== null && Object.hasOwn(at, step) ? (at as never)[step] : undefined;
  }
  return at;
}

/** As it would be written in a file. */
function quoted(value: unknown): string {
  return cut(typeof value === "string" ? JSON.stringify(value) : String(value));
}

/** What a file holds may be of any length; a message may not. */
function cut(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

/** `strings[2].note` */
function pathText(path: Path): string {
  let text = "";
  for (const step of path)
    text += typeof step === "number" ? `[${step}]` : `${text && "."}${cut(String(step))}`;
  return text;
}
