import { type Command, Option } from "commander";
import { parseHertz, parseNames } from "./optionParsers.js";
import { addPitchOptions } from "./pitchOptions.js";

/** The options that say what each string should be, and which sound. */
export function addTargetOptions(command: Command): Command {
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
