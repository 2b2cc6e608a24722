import type { CommandShape, OptionShape } from "./CommandShape.js";

/**
 * A completion script for fish: the commands and options with what each is for.
 *
 * @param shapes - the commands of the program
 */
export function fishCompletion(shapes: readonly CommandShape[]): string {
  const lines = shapes.flatMap((shape) => [
    `complete -c gurdybench -n __fish_use_subcommand -f -a ${shape.name} -d ${quoted(shape.description)}`,
    ...argumentLines(shape),
    ...shape.options.map((option) => optionLine(shape.name, option)),
  ]);
  return [
    "# Completion of gurdybench for fish.",
    "complete -c gurdybench -f",
    "complete -c gurdybench -n __fish_use_subcommand -l help -s h -d 'explain the command'",
    "complete -c gurdybench -n __fish_use_subcommand -l version -s V -d 'print the version'",
    ...lines,
    "",
  ].join("\n");
}

function argumentLines({ name, argument }: CommandShape): string[] {
  if (argument === null) return [];
  return argument === "files"
    ? [`complete -c gurdybench -n ${after(name)} -F`]
    : [`complete -c gurdybench -n ${after(name)} -f -a ${quoted(argument.join(" "))}`];
}

function optionLine(command: string, { names, description, value }: OptionShape): string {
  const forms = names.map((name) => (name.startsWith("--") ? `-l ${name.slice(2)}` : `-s ${name.slice(1)}`));
  const taken =
    value === undefined
      ? ""
      : value === "files"
        ? " -r -F"
        : value === null
          ? " -x"
          : ` -x -a ${quoted(value.join(" "))}`;
  return `complete -c gurdybench -n ${after(command)} ${forms.join(" ")}${taken} -d ${quoted(description)}`;
}

function after(command: string): string {
  return quoted(`__fish_seen_subcommand_from ${command}`);
}

function quoted(text: string): string {
  return `'${text.replace(/\\/g, "\\\\").replace(/'/g, "\\'")}'`;
}
