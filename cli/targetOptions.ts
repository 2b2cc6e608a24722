import { type Command, Option } from "commander";
import { parseCapo, parseHertz, parseNames } from "./optionParsers.js";

/** The options that say what each string should be, and which sound. */
export function addTargetOptions(command: Command): Command {
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
    )
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
