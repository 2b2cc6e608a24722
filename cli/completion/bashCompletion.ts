import type { CommandShape, OptionShape } from "./CommandShape.js";

/**
 * A completion script for bash: the commands, then each one's options, and after an option what it takes.
 *
 * @param shapes - the commands of the program
 */
export function bashCompletion(shapes: readonly CommandShape[]): string {
  const names = shapes.map(({ name }) => name).join(" ");
  return `# Completion of gurdybench for bash.
# Names of files, read line by line so that one with spaces stays one word.
_gurdybench_files() {
  local line
  while IFS= read -r line; do COMPREPLY+=("$line"); done < <(compgen -f -- "$1")
}
_gurdybench() {
  local cur="\${COMP_WORDS[COMP_CWORD]}" prev="\${COMP_WORDS[COMP_CWORD-1]}"
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${names} --help --version" -- "$cur"))
    return
  fi
  case "\${COMP_WORDS[1]}" in
${shapes.map(commandCase).join("\n")}
  esac
}
complete -o filenames -F _gurdybench gurdybench
`;
}

function commandCase({ name, options, argument }: CommandShape): string {
  const withValue = options.filter(({ value }) => value !== undefined);
  const words = options.flatMap((option) => option.names).join(" ");
  return `    ${name})
${withValue.length === 0 ? "" : `      case "$prev" in\n${withValue.map(valueCase).join("\n")}\n      esac\n`}      case "$cur" in
        -*) COMPREPLY=($(compgen -W "${words}" -- "$cur")) ;;
        *) ${offer(argument)} ;;
      esac ;;`;
}

function valueCase({ names, value }: OptionShape): string {
  return `        ${names.join("|")}) ${offer(value ?? null)}; return ;;`;
}

function offer(value: CommandShape["argument"]): string {
  if (value === null) return ":";
  if (value === "files") return '_gurdybench_files "$cur"';
  return `COMPREPLY=($(compgen -W "${value.join(" ")}" -- "$cur"))`;
}
