import { Argument, type Command } from "commander";
import { builtInTunings } from "../src/index.js";
import { bashCompletion } from "./completion/bashCompletion.js";
import { commandShapes } from "./completion/commandShapes.js";
import { fishCompletion } from "./completion/fishCompletion.js";
import { zshCompletion } from "./completion/zshCompletion.js";
import type { Terminal } from "./Terminal.js";

const scripts = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion };

/** The command `completion`. */
export function addCompletion(program: Command, terminal: Terminal): void {
  program
    .command("completion")
    .description("print a script that lets the Tab key complete commands, options and file names")
    .addArgument(new Argument("<shell>", "the shell you type in").choices(Object.keys(scripts)))
    .addHelpText(
      "after",
      "\nExamples: once for all new shells:\n" +
        "  gurdybench completion bash > ~/.local/share/bash-completion/completions/gurdybench\n" +
        "  gurdybench completion fish > ~/.config/fish/completions/gurdybench.fish\n" +
        "zsh: add this line to ~/.zshrc, below the one with compinit:\n" +
        "  source <(gurdybench completion zsh)",
    )
    .action((shell: keyof typeof scripts) => {
      const tunings = builtInTunings.map(({ name }) => name);
      terminal.stdout.write(scripts[shell](commandShapes(program, tunings)));
    });
}
