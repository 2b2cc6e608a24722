import { type Command, Option } from "commander";
import { historyCsv, historyText } from "../src/index.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import { type HistoryChoice, historyDocumentOf } from "./historyDocumentOf.js";
import type { LateParts } from "./LateParts.js";
import { parseDate, parseName } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, type OutputChoice } from "./outputs.js";
import type { Terminal } from "./Terminal.js";

/** Lines told one by one on stderr; the document has them all. */
const MOST_TOLD = 10;

/** The command `history`. */
export function addHistory(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("history")
    .description("show how strings drift from take to take, from a log that measure --log wrote")
    .argument("<log>", "the log")
    .addOption(
      new Option("--string <name>", "only this string; may be given several times").argParser(parseName),
    )
    .addOption(new Option("--since <date>", "only takes of this day and later").argParser(parseDate));
  addOutputOptions(command)
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: put takes down, and look at one string:\n" +
        "  gurdybench measure march.wav --tuning alto --log bench.log --date 2026-03-01\n" +
        "  gurdybench history bench.log --string G3\n\n" +
        "Exit codes: 0 done; 1 some line could not be used; 2 wrong usage; 3 no line could\n" +
        "be used; 4 the output can't be written.",
    )
    .action((log: string, choice: HistoryChoice & OutputChoice & { json?: true }) => {
      checkOutputs(choice, [log]);
      const document = historyDocumentOf(log, choice);
      for (const { line, message } of document.problems.slice(0, MOST_TOLD))
        terminal.stderr.write(`gurdybench: line ${line} was left out: ${message}\n`);
      if (document.problems.length > MOST_TOLD)
        terminal.stderr.write(`gurdybench: and ${document.problems.length - MOST_TOLD} more lines.\n`);
      if (document.instruments.length === 0) {
        terminal.stderr.write("gurdybench: no take in this log could be used.\n");
        if (choice.json) deliver(document, { json: true }, terminal, noForms);
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      deliver(document, choice, terminal, {
        text: (set) => historyText(document, set),
        html: () => late.pages!.htmlPage(late.pages!.historyPage(document)),
        csv: () => historyCsv(document),
      });
      setExitCode(document.problems.length > 0 ? exitCodes.someTakesUnusable : exitCodes.done);
    });
}

const noForms = { text: () => "", html: () => "", csv: () => "" };
