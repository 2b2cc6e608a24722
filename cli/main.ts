#!/usr/bin/env node
import { exitCodes } from "./exitCodes.js";
import { runProgram } from "./program.js";

// A reader that stops early (`| head`) is no fault; a full disk is.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit();
  process.stderr.write(`gurdybench: The output can't be written (${error.code ?? "unknown"}).\n`);
  process.exit(exitCodes.outputFailed);
});

const args = process.argv.slice(2);
const wantsPage = args.some((arg) => arg === "--html" || arg.startsWith("--html="));
process.exitCode = runProgram(
  args,
  {
    stdout: process.stdout,
    stderr: process.stderr,
    colour: process.stdout.isTTY === true && !process.env.NO_COLOR,
  },
  wantsPage ? await import("../src/pages.js") : null,
);
