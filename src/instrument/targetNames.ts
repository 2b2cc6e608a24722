import { AnalysisError } from "../errors.js";
import type { StringTarget } from "./Instrument.js";

/**
 * The names that an option gives, as the instrument writes them. They are compared in one Unicode form: a terminal may
 * compose accents differently from the file.
 *
 * @param option - the option that names them, without dashes; it goes into the error
 * @throws AnalysisError `string-unknown` for a name that no target has, `string-repeated` for one given twice
 * @example
 * ```ts
 * targetNames("order", ["G4 2", "G4"], stringTargets(findTuning("soprano"))); // ["G4 2", "G4"]
 * ```
 */
export function targetNames(
  option: string,
  given: readonly string[],
  targets: readonly StringTarget[],
): string[] {
  const names: string[] = [];
  for (const one of given) {
    const found = targets.find(({ name }) => name.normalize("NFC") === one.normalize("NFC"));
    if (!found) {
      const known = targets.map(({ name }) => name).join(", ");
      throw new AnalysisError("string-unknown", { option, given: one, known });
    }
    if (names.includes(found.name)) throw new AnalysisError("string-repeated", { option, given: found.name });
    names.push(found.name);
  }
  return names;
}
