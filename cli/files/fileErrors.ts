import { AnalysisError, type AnalysisErrorDetails } from "../../src/index.js";

/** Does something with a file that is read; what the system says against it is told as `file-unusable`. */
export function reading<T>(action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (error instanceof AnalysisError) throw error;
    const code = codeOf(error);
    if (["ENOENT", "ENOTDIR", "ENAMETOOLONG", "ERR_INVALID_ARG_VALUE"].includes(code))
      throw unusable("missing");
    if (["EACCES", "EPERM"].includes(code)) throw unusable("not-permitted");
    throw unusable("unreadable");
  }
}

/** Does something with a file that is written; what the system says against it is told as `output-unusable`. */
export function writing<T>(action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (error instanceof AnalysisError) throw error;
    const code = codeOf(error);
    if (code === "EEXIST") throw outputUnusable("exists");
    if (["ENAMETOOLONG", "ERR_INVALID_ARG_VALUE", "EILSEQ"].includes(code)) throw outputUnusable("name");
    if (["ENOENT", "ENOTDIR"].includes(code)) throw outputUnusable("no-folder");
    if (["EACCES", "EPERM", "EROFS"].includes(code)) throw outputUnusable("not-permitted");
    if (["ENOSPC", "EDQUOT", "EFBIG"].includes(code)) throw outputUnusable("no-space");
    throw outputUnusable("failed");
  }
}

/** The error for a file that can't be read. */
export function unusable(
  reason: Exclude<AnalysisErrorDetails["file-unusable"]["reason"], "too-large">,
): AnalysisError {
  return new AnalysisError("file-unusable", { reason, sizeBytes: null, limitBytes: null });
}

/** The error for a file that can't be written. */
export function outputUnusable(reason: AnalysisErrorDetails["output-unusable"]["reason"]): AnalysisError {
  return new AnalysisError("output-unusable", { reason });
}

/** What the system calls an error; empty where it gives no name. */
export function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? "";
}
