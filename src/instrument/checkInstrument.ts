import type * as z from "zod";
import type { AnalysisError } from "../errors.js";
import { frequencyHzToMidi, midiToFrequencyHz } from "../units/midiFrequency.js";
import { noteNameOfMidi } from "../units/noteNameOfMidi.js";
import { parseNoteName } from "../units/parseNoteName.js";
import type { InstrumentYaml } from "./InstrumentYaml.js";
import { instrumentRanges } from "./instrumentRanges.js";
import { type InstrumentFile, instrumentSchema, knownKeysAt } from "./instrumentSchema.js";
import { likelyKey } from "./likelyKey.js";

type Path = readonly PropertyKey[];

interface Problem {
  readonly offset: number;
  readonly path: Path;
  readonly problem: string;
}

/** What became of checking a YAML text. */
export type CheckedInstrument =
  | {
      readonly file: InstrumentFile;
      /** The note a nameless string is called by, for each string. */
      readonly notes: readonly string[];
      readonly problems: readonly [];
    }
  | {
      readonly file: null;
      readonly problems: readonly [
        AnalysisError<"instrument-invalid">,
        ...AnalysisError<"instrument-invalid">[],
      ];
    };

/**
 * Checks what a YAML text says against the schema, then what needs more than one entry. The problems come in the order of the
 * file, however they were found: people mend a file from the top.
 */
export function checkInstrument(yaml: InstrumentYaml): CheckedInstrument {
  const parsed = instrumentSchema.safeParse(yaml.value);
  if (!parsed.success) {
    return refused(
      parsed.error.issues.flatMap((issue) => issueProblems(issue, yaml)),
      yaml,
    );
  }
  const file = parsed.data;
  const found: Problem[] = [];
  const tell = (path: Path, problem: string) => found.push({ offset: yaml.offsetOf(path), path, problem });
  const { temperament = "equal", tonic, a4Hz = 440, strings } = file;
  if (temperament !== "equal" && tonic === undefined) {
    tell(["temperament"], `${temperament} needs a tonic, such as tonic: G`);
  }
  const notes = strings.map((string, index) => noteOf(string, index, a4Hz, tell));
  tellRepeatedNames(strings, tell);
  return found.length > 0 ? refused(found, yaml) : { file, notes, problems: [] };
}

type Tell = (path: Path, problem: string) => void;

/** The note a nameless string is called by, after checks that need more than one entry. */
function noteOf(
  { role, note, keys = 0, frequencyHz }: InstrumentFile["strings"][number],
  index: number,
  a4Hz: number,
  tell: Tell,
): string {
  const path = ["strings", index];
  if (role !== "melody" && keys > 0) tell([...path, "keys"], "only melody strings have keys");
  if (frequencyHz !== undefined) return note ?? noteNameOfMidi(frequencyHzToMidi(frequencyHz, a4Hz));
  if (note === undefined) {
    tell(path, "needs a note, or a frequency (frequencyHz)");
    return "";
  }
  const [lowestHz, highestHz] = instrumentRanges.frequencyHz;
  const noteHz = midiToFrequencyHz(parseNoteName(note).midi, a4Hz);
  if (noteHz < lowestHz || noteHz > highestHz) {
    tell([...path, "note"], `${note} is outside ${lowestHz} to ${highestHz} Hz`);
  }
  return note;
}

function tellRepeatedNames(strings: InstrumentFile["strings"], tell: Tell): void {
  const seen = new Set<string>();
  for (const [index, { name }] of strings.entries()) {
    if (name === undefined) continue;
    if (seen.has(name)) tell(["strings", index, "name"], `${quoted(name)} names another string already`);
    seen.add(name);
  }
}

function refused(found: readonly Problem[], yaml: InstrumentYaml): CheckedInstrument {
  const [first, ...others] = [...found]
    .sort((a, b) => a.offset - b.offset)
    .map(({ offset, path, problem }) => yaml.errorAt(offset, pathText(path), problem));
  // A schema that refuses has a reason.
  return { file: null, problems: [first!, ...others] };
}

function issueProblems(issue: z.core.$ZodIssue, yaml: InstrumentYaml): Problem[] {
  if (issue.code !== "unrecognized_keys") {
    const problem = valueProblem(issue.message, valueAt(yaml.value, issue.path));
    return [{ offset: yaml.offsetOf(issue.path), path: issue.path, problem }];
  }
  return issue.keys.map((key) => ({
    offset: yaml.offsetOfKey(issue.path, key),
    path: [...issue.path, key],
    problem: unknownKeyProblem(key, knownKeysAt(issue.path)),
  }));
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
