import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { createServer } from "node:net";
import { type BuiltCommand, buildCommand } from "../cli/buildCommand.js";

/** The page as the command serves it. */
export interface BenchServer {
  readonly command: BuiltCommand;
  readonly port: number;
  readonly address: string;
  readonly process: ChildProcess;
  /** What it has said on stdout so far. */
  said(): string;
  /** Ends it as Ctrl-C does. @returns its exit code */
  end(): Promise<number | null>;
  remove(): void;
}

/** A port that nobody uses at the moment. */
export async function freePort(): Promise<number> {
  const probe = createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const { port } = probe.address() as { port: number };
  probe.close();
  await once(probe, "close");
  return port;
}

/** Starts `gurdybench page` from the sources; the page itself is the built one (npm ci and npm run build make it). */
export async function startBench(options: readonly string[] = ["--no-browser"]): Promise<BenchServer> {
  const command = await buildCommand();
  const port = await freePort();
  const [program, ...first] = command.start;
  const child = spawn(program, [...first, "page", "--port", String(port), ...options], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  await new Promise<void>((resolve, reject) => {
    let err = "";
    child.stderr.on("data", (part) => {
      err += part;
    });
    child.stdout.on("data", (part) => {
      said += part;
      if (said.includes("Ctrl-C")) resolve();
    });
    child.on("exit", () => reject(new Error(`the page was not served: ${err}`)));
  });
  const ended = once(child, "exit");
  return {
    command,
    port,
    address: `http://127.0.0.1:${port}/`,
    process: child,
    said: () => said,
    end: async () => {
      child.kill("SIGINT");
      const [code] = await ended;
      return code;
    },
    remove: () => {
      child.kill("SIGKILL");
      command.remove();
    },
  };
}
