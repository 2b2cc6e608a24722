import { AnalysisError } from "../errors.js";
import { builtInTunings } from "./builtInTunings.js";
import type { Instrument } from "./Instrument.js";

/**
 * The built-in tuning of that name; capitals and spaces around it do not matter.
 *
 * @throws AnalysisError `tuning-unknown` with the names that are known
 */
export function findTuning(name: string): Instrument {
  const wanted = name.trim().toLowerCase();
  const found = builtInTunings.find((tuning) => tuning.name === wanted);
  if (found) return found;
  const known = builtInTunings.map((tuning) => tuning.name).join(", ");
  throw new AnalysisError("tuning-unknown", { given: name, known });
}
