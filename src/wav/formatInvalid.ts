import { AnalysisError, type AnalysisErrorDetails } from "../errors.js";

/** The error for a number of the fmt chunk that is outside what is allowed. */
export function formatInvalid(
  byteOffset: number,
  field: AnalysisErrorDetails["wav-format-invalid"]["field"],
  given: number,
  allowedMinimum: number,
  allowedMaximum: number,
): AnalysisError {
  return new AnalysisError("wav-format-invalid", {
    byteOffset,
    field,
    given,
    allowedMinimum,
    allowedMaximum,
  });
}
