import { joinRepeats, type LogRepeat } from "./joinRepeats.js";
import { logLimits } from "./logLimits.js";
import { type LoggedTake, logLineSchema } from "./logLineSchema.js";

/** A line that can't be used. `field` is where a line of ours is not as it must be, such as `strings.2.frequencyHz`. */
export interface LogProblem {
  readonly line: number;
  readonly reason: "half-written" | "damaged" | "not-json" | "not-a-take" | "newer-version" | "too-long";
  readonly field: string | null;
}

/** What a log holds. */
export interface LogReading {
  /** In no order; each once. */
  readonly takes: readonly LoggedTake[];
  readonly problems: readonly LogProblem[];
  readonly repeats: readonly LogRepeat[];
}

/** What stands for bytes that are no text; in our own lines it is written as an escape. */
const NO_TEXT = "\ufffd";

/**
 * Reads a log of takes, line by line. A line that can't be used is told, and the rest is read.
 *
 * @param text - the file, bytes that are no UTF-8 as U+FFFD; lines end with a line feed, the last one need not
 */
export function readLog(text: string): LogReading {
  const takes: { line: number; take: LoggedTake }[] = [];
  const problems: LogProblem[] = [];
  for (const [index, whole] of text.split("\n").entries()) {
    const line = index + 1;
    // An editor may have put its own line ends, or a mark before the first line.
    const content = whole.replace(/^\uFEFF/, "").trim();
    if (content === "") continue;
    const read = readLine(content);
    if ("take" in read) takes.push({ line, take: read.take });
    else problems.push({ line, ...read });
  }
  return { ...joinRepeats(takes), problems };
}

function readLine(content: string): { take: LoggedTake } | Omit<LogProblem, "line"> {
  const problem = (reason: LogProblem["reason"], field: string | null = null) => ({ reason, field });
  if (content.length > logLimits.lineCharacters) return problem("too-long");
  let value: unknown;
  try {
    value = JSON.parse(content);
  } catch {
    return problem(content.startsWith("{") ? "half-written" : "not-json");
  }
  if (content.includes(NO_TEXT)) return problem("damaged");
  const parsed = logLineSchema.safeParse(value);
  if (parsed.success) return { take: parsed.data };
  const { tool, schemaVersion } = Object(value) as Record<string, unknown>;
  if (tool === "gurdybench" && typeof schemaVersion === "number" && schemaVersion > 1)
    return problem("newer-version");
  return problem("not-a-take", parsed.error.issues[0]?.path.map(String).join(".") || null);
}
