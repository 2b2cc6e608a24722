import { Argument, Command, CommanderError, Option } from "commander";
import {
  AnalysisError,
  builtInTunings,
  checkText,
  checkVerdict,
  compareText,
  demoCompareIntroText,
  demoIntroText,
  documentJson,
  errorSentence,
  keyboardText,
  type MeasureDocument,
  measureText,
  printable,
  stringTargets,
  tuningsText,
} from "../src/index.js";
import { chooseSides, type SideChoice } from "./chooseSides.js";
import { chooseTargets, type TargetChoice } from "./chooseTargets.js";
import { compareDemoSides } from "./compareDemoSides.js";
import { compareTakes } from "./compareTakes.js";
import { exitCodes } from "./exitCodes.js";
import { packageFile, packageVersion } from "./files.js";
import { type KeyboardChoice, keyboardTakes } from "./keyboardTakes.js";
import { measureTakes } from "./measureTakes.js";
import { parseAnchor, parseCapo, parseHertz, parseMillimetres, parseNames } from "./optionParsers.js";
import type { Terminal } from "./Terminal.js";
import { UsageError } from "./UsageError.js";

interface MeasureOptions extends TargetChoice {
  readonly json?: true;
}

interface KeyboardOptions extends KeyboardChoice, TargetChoice {
  readonly json?: true;
}

interface CompareOptions extends TargetChoice, SideChoice {
  readonly equalGain?: true;
  readonly microphone?: string;
  readonly json?: true;
}

/**
 * Runs the command.
 *
 * @param args - what was typed after the command's name
 * @returns the exit code
 */
export function runProgram(args: readonly string[], terminal: Terminal): number {
  let exitCode: number = exitCodes.done;
  try {
    const program = buildProgram(terminal, (code) => {
      exitCode = code;
    });
    program.parse(args, { from: "user" });
    return exitCode;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.wrongUsage;
    if (error instanceof UsageError) {
      terminal.stderr.write(`gurdybench: ${error.message}\n`);
      return exitCodes.wrongUsage;
    }
    const fault = error instanceof Error ? error.name : "unknown";
    const sentence = errorSentence(
      error instanceof AnalysisError ? error : new AnalysisError("unexpected-fault", { fault }),
    );
    terminal.stderr.write(`gurdybench: ${sentence}\n`);
    return exitCodes.noTakeUsable;
  }
}

function buildProgram(terminal: Terminal, setExitCode: (code: number) => void): Command {
  const program = new Command("gurdybench")
    .description(
      "A measuring bench for hurdy-gurdies: what each string is tuned to, how far off, how steadily.",
    )
    .version(packageVersion(), "-V, --version", "print the version")
    .helpOption("-h, --help", "explain the command")
    .exitOverride()
    .configureOutput({
      writeOut: (text) => terminal.stdout.write(text),
      writeErr: (text) => terminal.stderr.write(text),
      // Commander repeats what was typed; its lines are kept, control characters in them are not.
      outputError: (text, write) => write(text.split("\n").map(printable).join("\n")),
    });
  addMeasure(program, terminal, setExitCode);
  addCompare(program, terminal, setExitCode);
  addKeyboard(program, terminal, setExitCode);
  addCheck(program, terminal, setExitCode);
  program
    .command("tunings")
    .description("list the built-in tunings")
    .action(() => {
      const listed = builtInTunings.map((tuning) => ({ name: tuning.name, targets: stringTargets(tuning) }));
      terminal.stdout.write(tuningsText(listed, 440, columns(terminal)));
    });
  program
    .command("demo")
    .description("measure a synthesised take of an invented instrument, to see what the output looks like")
    .addArgument(
      new Argument("[what]", "measure: one take; compare: three instruments, three takes each")
        .choices(["measure", "compare"])
        .default("measure"),
    )
    .action((what: "measure" | "compare") => {
      if (what === "compare") {
        terminal.stdout.write(demoCompareIntroText(columns(terminal)));
        terminal.stdout.write(compareText(compareDemoSides(), textOptions(terminal)));
        return;
      }
      const chosen = chooseTargets({ instrument: packageFile("fixtures", "demo-instrument.yaml") });
      const take = { path: packageFile("fixtures", "demo-take.wav"), name: "demo-take.wav" };
      terminal.stdout.write(demoIntroText(columns(terminal)));
      const document = measureTakes([take], chosen, terminal);
      terminal.stdout.write(measureText(document, textOptions(terminal)));
      setExitCode(takesExitCode(document, isMeasured));
    });
  return program;
}

function addMeasure(program: Command, terminal: Terminal, setExitCode: (code: number) => void): void {
  const command = program
    .command("measure")
    .description("measure the strings in one or more recordings")
    .argument("<take...>", "WAV recordings; write -- before a name that begins with a dash");
  addTargetOptions(command)
    .addOption(
      new Option(
        "--anchor <name>",
        "the one string that can't be moved; the others are to go by it",
      ).argParser(parseAnchor),
    )
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: the drones of an alto, recorded one after another, set to C:\n" +
        "  gurdybench measure drones.wav --tuning alto --tonic C\n\n" +
        "Exit codes: 0 done; 1 some take could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 no take could be used; 4 the output can't be written.",
    )
    .action((takes: string[], options: MeasureOptions) => {
      const chosen = chooseTargets(options);
      const document = measureTakes(takes.map(namedByPath), chosen, terminal);
      for (const take of document.takes.filter((each) => !isMeasured(each))) {
        terminal.stderr.write(
          `gurdybench: ${printable(take.file)}: no string could be measured; see its findings.\n`,
        );
      }
      if (options.json) terminal.stdout.write(documentJson(document));
      else if (document.takes.length > 0) terminal.stdout.write(measureText(document, textOptions(terminal)));
      setExitCode(takesExitCode(document, isMeasured));
    });
}

/** The options that say what each string should be. */
function addPitchOptions(command: Command): Command {
  return command
    .addOption(new Option("--instrument <file>", "instrument file (YAML)").conflicts("tuning"))
    .addOption(new Option("--tuning <name>", 'built-in tuning; "gurdybench tunings" lists them'))
    .addOption(
      new Option("--a4 <hz>", "pitch of A4 in hertz (440 if neither this nor the instrument says)").argParser(
        parseHertz,
      ),
    )
    .addOption(new Option("--tonic <note>", "note the drones are pure to, such as G or Bb"))
    .addOption(
      new Option("--capo <name=semitones>", "a string that is raised; may be given several times").argParser(
        parseCapo,
      ),
    );
}

/** The options that say what each string should be, and which sound. */
function addTargetOptions(command: Command): Command {
  return addPitchOptions(command)
    .addOption(
      new Option("--order <name,name>", "order in which equal strings were recorded").argParser(parseNames),
    )
    .addOption(
      new Option(
        "--sounding <name,name>",
        "only these strings sound, together (otherwise all are tried)",
      ).argParser(parseNames),
    )
    .addOption(
      new Option("--low-edge <hz>", "where the low register ends (177.8 Hz otherwise)").argParser(parseHertz),
    );
}

function addCompare(program: Command, terminal: Terminal, setExitCode: (code: number) => void): void {
  const command = program
    .command("compare")
    .description("compare the low register of two instruments or more, each recorded in several takes")
    .addOption(new Option("--a <take...>", "WAV recordings of the first side"))
    .addOption(new Option("--b <take...>", "WAV recordings of the other side"))
    .addOption(new Option("--a-name <name>", "what to call the first side (A otherwise)"))
    .addOption(new Option("--b-name <name>", "what to call the other side (B otherwise)"))
    .addOption(
      new Option(
        "--side <name=pattern>",
        "a side by its name and a pattern of files; may be given several times",
      ).argParser((text: string, before: readonly string[] = []) => [...before, text]),
    )
    .addOption(new Option("--equal-gain", "all recordings were made with one gain: levels compare too"))
    .addOption(
      new Option("--microphone <file>", "table of the microphone's response, taken off: hertz and dB a line"),
    );
  addTargetOptions(command)
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: three takes a side, player and microphone placed anew for each:\n" +
        "  gurdybench compare --a old-*.wav --b new-*.wav --a-name old --b-name new \\\n" +
        "    --tuning alto\n\n" +
        "Exit codes: 0 done; 1 some take could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 a side has no take left; 4 the output can't be written.",
    )
    .action((options: CompareOptions) => {
      const sides = chooseSides(options);
      const chosen = chooseTargets(options);
      const choice = { equalGain: options.equalGain ?? false, microphone: options.microphone ?? null };
      const document = compareTakes(sides, chosen, choice, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      terminal.stdout.write(
        options.json ? documentJson(document) : compareText(document, textOptions(terminal)),
      );
      setExitCode(document.failed.length > 0 ? exitCodes.someTakesUnusable : exitCodes.done);
    });
}

function addKeyboard(program: Command, terminal: Terminal, setExitCode: (code: number) => void): void {
  const command = program
    .command("keyboard")
    .description("read a scale played on one string: how far each key is off, and how to move its tangent")
    .argument("<scale>", "WAV recording of the scale; write -- before a name that begins with a dash")
    .requiredOption(
      "--string <name>",
      "the string that the scale is played on, by its name in the instrument",
    )
    .addOption(
      new Option(
        "--length-mm <mm>",
        "vibrating length, nut to bridge (wins over the instrument's)",
      ).argParser(parseMillimetres),
    )
    .addOption(new Option("--other <scale>", "scale of another string that the same keys stop"))
    .addOption(new Option("--other-string <name>", "that other string"));
  addPitchOptions(command)
    .addOption(new Option("--json", "print everything as one JSON document"))
    .addHelpText(
      "after",
      "\nExample: all keys of the top string, from the open string up, drones on or off:\n" +
        "  gurdybench keyboard scale.wav --tuning alto --string G4 --length-mm 345\n\n" +
        "Exit codes: 0 done; 1 the other scale could not be used; 2 wrong usage or a bad\n" +
        "instrument file; 3 the scale could not be used; 4 the output can't be written.",
    )
    .action((scale: string, options: KeyboardOptions) => {
      const chosen = chooseTargets(options);
      const { document, otherFailed } = keyboardTakes(scale, options, chosen, terminal);
      if (document === null) {
        setExitCode(exitCodes.noTakeUsable);
        return;
      }
      terminal.stdout.write(
        options.json ? documentJson(document) : keyboardText(document, textOptions(terminal)),
      );
      if (document.keys.length === 0) setExitCode(exitCodes.noTakeUsable);
      else setExitCode(otherFailed ? exitCodes.someTakesUnusable : exitCodes.done);
    });
}

function addCheck(program: Command, terminal: Terminal, setExitCode: (code: number) => void): void {
  program
    .command("check")
    .description("say whether recordings are good enough to measure from: clipping, hum, noise, length")
    .argument("<take...>", "WAV recordings; write -- before a name that begins with a dash")
    .addHelpText("after", "\nExample:\n  gurdybench check drones.wav")
    .action((takes: string[]) => {
      const document = measureTakes(takes.map(namedByPath), chooseTargets({}), terminal);
      if (document.takes.length > 0) terminal.stdout.write(checkText(document, textOptions(terminal)));
      setExitCode(takesExitCode(document, (take) => checkVerdict(take) !== "bad"));
    });
}

type TakeDocument = MeasureDocument["takes"][number];

function isMeasured(take: TakeDocument): boolean {
  return take.strings.some((string) => string.status === "measured");
}

function takesExitCode(document: MeasureDocument, isUsable: (take: TakeDocument) => boolean): number {
  const usable = document.takes.filter(isUsable).length;
  if (usable === 0) return exitCodes.noTakeUsable;
  return usable < document.takes.length + document.failed.length
    ? exitCodes.someTakesUnusable
    : exitCodes.done;
}

function namedByPath(path: string): { path: string; name: string } {
  return { path, name: path };
}

function textOptions(terminal: Terminal): { colour: boolean; width: number } {
  return { colour: terminal.colour, width: columns(terminal) };
}

function columns(terminal: Terminal): number {
  // Lines longer than a hundred columns are hard to follow, however wide the window.
  return Math.min(100, terminal.stdout.columns ?? 80);
}
