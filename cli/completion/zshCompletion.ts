import type { CommandShape, OptionShape } from "./CommandShape.js";

/**
 * A completion script for zsh: the commands and options with what each is for.
 *
 * @param shapes - the commands of the program
 */
export function zshCompletion(shapes: readonly CommandShape[]): string {
  return `#compdef gurdybench
# Completion of gurdybench for zsh.
_gurdybench() {
  local -a commands
  commands=(
${shapes.map(({ name, description }) => `    ${quoted(`${name}:${description}`)}`).join("\n")}
  )
  if (( CURRENT == 2 )); then
    _describe 'command' commands
    return
  fi
  case "$words[2]" in
${shapes.map(commandCase).join("\n")}
  esac
}
if [ "$funcstack[1]" = "_gurdybench" ]; then
  _gurdybench "$@"
else
  compdef _gurdybench gurdybench
fi
`;
}

function commandCase({ name, options, argument }: CommandShape): string {
  const rest = argument === null ? [] : [quoted(`*:what:${action(argument)}`)];
  const lines = [...options.flatMap(optionSpecs), ...rest].map((spec) => `        ${spec}`);
  return `    ${name})
      shift words
      (( CURRENT-- ))
      _arguments \\
${lines.join(" \\\n")}
      ;;`;
}

function optionSpecs({ names, description, value, takesMany }: OptionShape): string[] {
  const said = `[${description.replace(/[[\]]/g, "")}]`;
  return names.map((name) => {
    if (value === undefined) return quoted(`${name}${said}`);
    // An option of many words ends at the next that begins with a dash.
    const many = takesMany ? "*-*:" : ":";
    return quoted(`*${name}${said}${many}value:${action(value)}`);
  });
}

function action(value: CommandShape["argument"]): string {
  if (value === null) return " ";
  return value === "files" ? "_files" : `(${value.join(" ")})`;
}

function quoted(text: string): string {
  return `'${text.replace(/'/g, "'\\''")}'`;
}
