import { type Command, Option } from "commander";
import { parsePort } from "./optionParsers.js";
import { watcher } from "./watcher.js";

/** Kept the same from time to time, since a browser keeps things for one address. */
const USUAL_PORT = 4868;

/** The command `page`. */
export function addPage(program: Command): void {
  program
    .command("page")
    .description("open the bench page: the measuring in a browser of this computer, which nothing leaves")
    .addOption(new Option("--port <number>", "port to serve it at").argParser(parsePort).default(USUAL_PORT))
    .addOption(new Option("--no-browser", "serve it only; open the address yourself"))
    .addHelpText(
      "after",
      "\nThe page is served to this computer alone, until Ctrl-C. What is kept in it stays in\n" +
        "the browser, for one port: choose the same port again to find it.\n\n" +
        "Example:\n  gurdybench page\n\n" +
        "Exit codes: 0 ended by Ctrl-C; 2 wrong usage; 4 the page can't be served.",
    )
    .action(({ port, browser }: { readonly port: number; readonly browser: boolean }) => {
      watcher.serve({ port, opensBrowser: browser });
    });
}
