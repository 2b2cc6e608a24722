import { AnalysisError } from "../errors.js";
import { checkInstrument } from "./checkInstrument.js";
import { InstrumentYaml } from "./InstrumentYaml.js";

/**
 * All that is wrong with an instrument file, in its order; empty for one that {@link readInstrument} reads. A text that is no
 * valid YAML has one problem, the first. What needs more than one entry is looked at once each by itself is right.
 *
 * @example
 * ```ts
 * instrumentProblems("a4Hz: 44\nstrings:\n  - {role: drone, note: H2}\n").map(({ details }) => details.path); // ["a4Hz", "strings[0].note"]
 * ```
 */
export function instrumentProblems(yamlText: string): readonly AnalysisError<"instrument-invalid">[] {
  try {
    return checkInstrument(new InstrumentYaml(yamlText)).problems;
  } catch (error) {
    if (error instanceof AnalysisError && error.is("instrument-invalid")) return [error];
    throw error;
  }
}
