import { AnalysisError } from "../../src/errors.js";
import { readInstrument } from "../../src/instrument/readInstrument.js";

/** What is wrong with an instrument file, or null; anything but an `instrument-invalid` error is passed on. */
export function instrumentProblem(yamlText: string) {
  try {
    readInstrument(yamlText);
    return null;
  } catch (error) {
    if (error instanceof AnalysisError && error.is("instrument-invalid")) return error.details;
    throw error;
  }
}
