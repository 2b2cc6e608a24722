import { logLimits } from "./logLimits.js";

/** How every line begins that was written by us. A line that was cut off later is known by it. */
const HEAD = '{"schemaVersion":1,"tool":"gurdybench","kind":"take",';

/**
 * Whether the first line of a file is one of a log of takes, so that more may be appended to it: a whole one of this or a newer version, or
 * the beginning of one (power was lost while the first was written).
 */
export function startsLog(firstLine: string): boolean {
  if (firstLine.length > logLimits.lineCharacters) return false;
  try {
    const { schemaVersion, tool, kind } = Object(JSON.parse(firstLine)) as Record<string, unknown>;
    return (
      tool === "gurdybench" &&
      kind === "take" &&
      Number.isInteger(schemaVersion) &&
      Number(schemaVersion) >= 1
    );
  } catch {
    return firstLine.startsWith(HEAD);
  }
}
