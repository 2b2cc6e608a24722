import { runProgram } from "../../cli/program.js";

/** What a command prints and ends with where no other thread is there. */
export function inOneThread(args: readonly string[]): { code: number; out: string; err: string } {
  let out = "";
  let err = "";
  const code = runProgram(args, {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
    colour: false,
  });
  return { code, out, err };
}
