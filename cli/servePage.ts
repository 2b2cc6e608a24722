import type { Server } from "node:http";
import { exitCodes } from "./exitCodes.js";
import { pageFiles } from "./files/pageFiles.js";
import { openBrowser } from "./openBrowser.js";
import { HERE, pageServer } from "./pageServer.js";
import type { ServeRequest } from "./ThreadMessages.js";

/** What is told on the way. */
export interface Serving {
  say(text: string): void;
  complain(sentence: string): void;
  /** It can't be served; the code is what the command hands back. */
  end(exitCode: number): void;
}

/** Serves the bench page until it is closed, and opens a browser where that is wanted. */
export function servePage({ port, opensBrowser }: ServeRequest, serving: Serving): Server | null {
  const files = pageFiles();
  if (files === null) {
    serving.complain(
      "The page is not there: it was not built. In the folder of Gurdybench, npm run build makes it.",
    );
    serving.end(exitCodes.outputFailed);
    return null;
  }
  const address = `http://${HERE}:${port}/`;
  const server = pageServer(files);
  server.on("error", (error: NodeJS.ErrnoException) => {
    serving.complain(
      error.code === "EADDRINUSE"
        ? `Port ${port} is in use: the page may be open already at ${address}. Otherwise choose another with --port; ` +
            "what was kept in the browser at one port is not seen at another."
        : `The page can't be served at port ${port} (${error.code ?? "unknown"}). Choose another with --port.`,
    );
    serving.end(exitCodes.outputFailed);
  });
  server.listen(port, HERE, () => {
    serving.say(`The bench page is at ${address}\nIt stays there until this command is ended (Ctrl-C).\n`);
    if (opensBrowser) void open(address, serving);
  });
  return server;
}

async function open(address: string, serving: Serving): Promise<void> {
  if (!(await openBrowser(address)))
    serving.complain(`No browser could be opened. Open one, and type this address: ${address}`);
}
