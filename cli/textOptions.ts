import type { Terminal } from "./Terminal.js";

/** How text is set on this terminal. */
export function textOptions(terminal: Terminal): { colour: boolean; width: number } {
  return { colour: terminal.colour, width: columns(terminal) };
}

/** Columns to write in. */
export function columns(terminal: Terminal): number {
  // Lines longer than a hundred columns are hard to follow, however wide the window.
  return Math.min(100, terminal.stdout.columns ?? 80);
}
