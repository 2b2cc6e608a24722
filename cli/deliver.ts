import { documentJson } from "../src/index.js";
import { type OutputChoice, writeOutputs } from "./outputs.js";
import type { Terminal } from "./Terminal.js";
import { textOptions } from "./textOptions.js";

/** The forms a document can be handed over in. */
export interface Forms {
  readonly text: (options: ReturnType<typeof textOptions>) => string;
  readonly html: () => string;
  readonly csv: () => string;
}

/** Prints a document, as JSON or for people, and writes the files that were asked for. */
export function deliver(
  document: object,
  options: OutputChoice & { readonly json?: true },
  terminal: Terminal,
  { text, html, csv }: Forms,
): void {
  terminal.stdout.write(options.json ? documentJson(document) : text(textOptions(terminal)));
  writeOutputs(options, { html, csv }, terminal);
}
