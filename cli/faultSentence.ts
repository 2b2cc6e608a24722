import { AnalysisError, errorSentence } from "../src/index.js";

/** The sentence for whatever was thrown. */
export function faultSentence(error: unknown): string {
  const fault = error instanceof Error ? error.name : "unknown";
  return errorSentence(
    error instanceof AnalysisError ? error : new AnalysisError("unexpected-fault", { fault }),
  );
}
