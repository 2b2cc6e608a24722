import { AnalysisError, type AnalysisErrorDetails } from "../src/index.js";

/** What the system says where a file can't be read, as an error of ours; errors of ours stay what they are. */
export function readFault(error: unknown): AnalysisError {
  if (error instanceof AnalysisError) return error;
  const code = (error as NodeJS.ErrnoException).code ?? "";
  if (["ENOENT", "ENOTDIR", "ENAMETOOLONG", "ERR_INVALID_ARG_VALUE"].includes(code))
    return unusable("missing");
  if (["EACCES", "EPERM"].includes(code)) return unusable("not-permitted");
  return unusable("unreadable");
}

/** The same where a file can't be written. */
export function writeFault(error: unknown): AnalysisError {
  if (error instanceof AnalysisError) return error;
  const code = (error as NodeJS.ErrnoException).code ?? "";
  if (code === "EEXIST") return outputUnusable("exists");
  if (["ENOENT", "ENOTDIR"].includes(code)) return outputUnusable("no-folder");
  if (["EACCES", "EPERM", "EROFS"].includes(code)) return outputUnusable("not-permitted");
  if (["ENOSPC", "EDQUOT", "EFBIG"].includes(code)) return outputUnusable("no-space");
  return outputUnusable("failed");
}

/** A file that can't be read. */
export function unusable(
  reason: "missing" | "directory" | "not-regular" | "not-permitted" | "not-text" | "unreadable",
): AnalysisError {
  return new AnalysisError("file-unusable", { reason, sizeBytes: null, limitBytes: null });
}

/** A folder, or what is neither file nor folder. */
export function notRegular(isDirectory: boolean): AnalysisError {
  return unusable(isDirectory ? "directory" : "not-regular");
}

/** A file that can't be written. */
export function outputUnusable(reason: AnalysisErrorDetails["output-unusable"]["reason"]): AnalysisError {
  return new AnalysisError("output-unusable", { reason });
}
