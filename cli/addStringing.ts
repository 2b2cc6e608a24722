import { type Command, Option } from "commander";
import { type StringingDocument, stringingCsv, stringingText } from "../src/index.js";
import { deliver } from "./deliver.js";
import { exitCodes } from "./exitCodes.js";
import type { LateParts } from "./LateParts.js";
import { parseHertz, parsePositive, parseRetune } from "./optionParsers.js";
import { addOutputOptions, checkOutputs, type OutputChoice } from "./outputs.js";
import { type StringingChoice, stringingDocumentOf } from "./stringingDocumentOf.js";
import type { Terminal } from "./Terminal.js";

/** The command `stringing`. */
export function addStringing(
  program: Command,
  terminal: Terminal,
  setExitCode: (code: number) => void,
  late: LateParts,
): void {
  const command = program
    .command("stringing")
    .description("reckon the tension of each string, and what another length, note or string would change")
    .addOption(new Option("--instrument <file>", "instrument file (YAML)").makeOptionMandatory())
    .addOption(
      new Option("--against <file>", "another instrument beside it, strings matched by name").conflicts([
        "otherLength",
        "retune",
      ]),
    )
    .addOption(
      new Option(
        "--other-length <mm>",
        "the same on another scale: the length of the longest melody string, all others in proportion",
      ).argParser(parsePositive("millimetres")),
    )
    .addOption(
      new Option("--retune <name=note>", "a string at another note; may be given several times").argParser(
        parseRetune,
      ),
    )
    .addOption(
      new Option("--tension <newton>", "how heavy each string would be at this tension").argParser(
        parsePositive("newtons"),
      ),
    )
    .addOption(
      new Option("--a4 <hz>", "pitch of A4 in hertz; wins over the instrument's").argParser(parseHertz),
    )
    .addOption(new Option("--tonic <note>", "note the drones are pure to, such as G or Bb"));
  addOutputOptions(command)
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: what the strings of a short scale would pull on one of 380 mm:\n" +
        "  gurdybench stringing --instrument short.yaml --other-length 380",
    )
    .action((choice: StringingChoice & OutputChoice & { json?: true }) => {
      const files = [choice.instrument, ...(choice.against === undefined ? [] : [choice.against])];
      checkOutputs(choice, files);
      const document = stringingDocumentOf(choice);
      deliver(document, choice, terminal, {
        text: (set) => stringingText(document, set),
        html: () => late.pages!.htmlPage(late.pages!.stringingPage(document, files)),
        csv: () => stringingCsv(document),
      });
      if (!holdsNumbers(document)) setExitCode(exitCodes.noTakeUsable);
    });
}

/** False where no string has what a tension, or the weight that one asks for, is reckoned from. */
function holdsNumbers({ strings, comparison }: StringingDocument): boolean {
  return (
    strings.some((row) => row.tensionNewton !== null || row.wantedGramsPerMetre !== null) ||
    (comparison ?? []).some((row) => row.tensionNewton !== null)
  );
}
