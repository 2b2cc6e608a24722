import type { YAMLMap } from "yaml";
import { fieldText } from "./fieldText.js";
import type { InstrumentFields, InstrumentKey, StringFields, StringKey } from "./InstrumentFields.js";
import { knownKeysAt } from "./instrumentSchema.js";
import { openInstrument } from "./openInstrument.js";

/**
 * The entries of an instrument file as texts, for a form. They need not be right ({@link instrumentProblems} tells what is wrong); the
 * text need only have the shape of an instrument file, and may be empty.
 *
 * @throws AnalysisError `instrument-invalid` for a text that a form can't show: no valid YAML, or neither a mapping nor, in it, a list of strings
 *
 * @example
 * ```ts
 * readInstrumentFields("strings:\n  - {role: drone, note: H2}\n").strings[0]?.note; // "H2"
 * ```
 */
export function readInstrumentFields(yamlText: string): InstrumentFields {
  const { root, strings } = openInstrument(yamlText);
  const own = knownKeysAt([]).filter((key): key is InstrumentKey => key !== "strings");
  const ofStrings = knownKeysAt(["strings", 0]) as readonly StringKey[];
  return {
    ...(textsOf(root, own) as Record<InstrumentKey, string>),
    strings: strings.items.map((string) => textsOf(string, ofStrings) as StringFields),
  };
}

function textsOf(mapping: YAMLMap, keys: readonly string[]): Record<string, string> {
  return Object.fromEntries(keys.map((key) => [key, fieldText(mapping.get(key, true))]));
}
