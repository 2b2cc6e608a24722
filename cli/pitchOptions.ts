import { type Command, Option } from "commander";
import { parseCapo, parseHertz } from "./optionParsers.js";

/** The options that say what pitch each string should have. */
export function addPitchOptions(command: Command): Command {
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
