import { AnalysisError } from "../../src/errors.js";

/** The code and details of the AnalysisError that `action` throws; anything else is thrown on. */
export function thrownBy(action: () => unknown): { code: string; details: unknown } {
  try {
    action();
  } catch (error) {
    if (error instanceof AnalysisError) return { code: error.code, details: error.details };
    throw error;
  }
  throw new Error("nothing was thrown");
}
