import { basename } from "node:path";
import { type Command, Option } from "commander";
import { isMeasured, logLimits, logLine, type MeasureDocument, printable } from "../src/index.js";
import { isSameFile } from "./files/isSameFile.js";
import { appendLogLine, fileMoment, lookAtLog } from "./files/logFile.js";
import { parseDate, parseNote, parseWithin } from "./optionParsers.js";
import { type OutputChoice, told } from "./outputs.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";
import { watcher } from "./watcher.js";

/** What is to be put down about the takes, and where. */
export interface LogChoice {
  readonly log?: string;
  readonly date?: string;
  readonly temperatureC?: number;
  readonly humidityPercent?: number;
  readonly work?: string;
}

/** The options for a log of takes. */
export function addLogOptions(command: Command): Command {
  return command
    .addOption(new Option("--log <file>", "add a line for each take to this log; see gurdybench history"))
    .addOption(
      new Option(
        "--date <date>",
        "when the takes were made, for the log (the files' own time otherwise)",
      ).argParser(parseDate),
    )
    .addOption(
      new Option("--temperature-c <degrees>", "temperature in the room, for the log").argParser(
        parseWithin(...logLimits.temperatureC, "degrees Celsius"),
      ),
    )
    .addOption(
      new Option("--humidity-percent <percent>", "relative humidity in the room, for the log").argParser(
        parseWithin(...logLimits.humidityPercent, "percent"),
      ),
    )
    .addOption(
      new Option("--work <words>", "work done on the instrument before these takes, for the log").argParser(
        parseNote,
      ),
    );
}

/**
 * Looks whether the log can be appended to, before the work is done.
 *
 * @param inputs - files that are read
 */
export function checkLog(choice: LogChoice & OutputChoice, inputs: readonly string[]): void {
  const { log } = choice;
  if (log === undefined) {
    const needing = (["date", "temperatureC", "humidityPercent", "work"] as const).filter(
      (name) => choice[name] !== undefined,
    );
    if (needing.length === 0) return;
    const names = {
      date: "date",
      temperatureC: "temperature-c",
      humidityPercent: "humidity-percent",
      work: "work",
    };
    throw new UsageError(
      `--${needing.map((name) => names[name]).join(", --")} can only be used with --log FILE.`,
    );
  }
  if ([choice.html, choice.csv].some((path) => path !== undefined && isSameFile(path, log)))
    throw new UsageError("--log names the same file as --html or --csv.");
  told(log, () => lookAtLog(log, inputs));
}

/** Appends a line for each take in which a string was measured, and says so on stderr. */
export function logTakes(choice: LogChoice, document: MeasureDocument, terminal: Terminal): void {
  const { log } = choice;
  if (log === undefined) return;
  for (const take of document.takes) {
    const say = (words: string) => terminal.stderr.write(`gurdybench: ${printable(take.file)}: ${words}\n`);
    if (!isMeasured(take)) {
      say("not logged, since no string was measured.");
      continue;
    }
    const takenAt = choice.date ?? fileMoment(take.file);
    const line = logLine(document, take, {
      file: basename(take.file),
      takenAt,
      takenAtBasis: choice.date === undefined ? "file-time" : "given",
      temperatureC: choice.temperatureC ?? null,
      humidityPercent: choice.humidityPercent ?? null,
      work: choice.work ?? null,
    });
    told(log, () => watcher.whileWriting(() => appendLogLine(log, line)));
    const basis = choice.date === undefined ? " by the time of its file (--date says another)" : "";
    say(`logged in ${printable(log)} as of ${takenAt.replace("T", " ")}${basis}.`);
  }
}
