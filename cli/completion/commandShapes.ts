import type { Argument, Command, Option } from "commander";
import type { CommandShape, Completed, OptionShape } from "./CommandShape.js";

/** Names of values that are files. */
const FILES = /^(file|take|scale)(\.{3})?$/;

/**
 * The commands of a program and what can follow each, read off its definitions, so that what the shell offers is what
 * the program takes.
 *
 * @param tunings - names that `--tuning` takes
 */
export function commandShapes(program: Command, tunings: readonly string[]): CommandShape[] {
  return program.commands.map((command) => ({
    name: command.name(),
    description: command.description(),
    options: [...command.options.map((option) => optionShape(option, tunings)), HELP],
    argument: command.registeredArguments.map(argumentValue).find((value) => value !== null) ?? null,
  }));
}

const HELP: OptionShape = {
  names: ["-h", "--help"],
  description: "explain the command",
  value: undefined,
  takesMany: false,
};

function optionShape(option: Option, tunings: readonly string[]): OptionShape {
  return {
    names: [option.short, option.long].filter((name) => name !== undefined),
    description: option.description,
    value: option.isBoolean() ? undefined : optionValue(option, tunings),
    takesMany: option.variadic,
  };
}

function optionValue({ long, flags, argChoices }: Option, tunings: readonly string[]): Completed {
  if (long === "--tuning") return tunings;
  if (argChoices !== undefined) return argChoices;
  const [, placeholder] = /[<[](.+)[>\]]/.exec(flags) ?? [];
  return placeholder !== undefined && FILES.test(placeholder) ? "files" : null;
}

function argumentValue(argument: Argument): Completed {
  return argument.argChoices ?? (FILES.test(argument.name()) ? "files" : null);
}
