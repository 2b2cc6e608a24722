import { printable } from "../printable.js";
import { shorten } from "../shorten.js";

/** Two lines of letters stand so far apart at the least. */
const LINE_PIXELS = 15;

/**
 * Names to be written at heights of a drawing, so that none stands on another: those that are nearer than a line to the one
 * above them are written on its line.
 *
 * @param columns - longest text, in letters
 */
export function nameLabels(
  places: readonly { readonly name: string; readonly pixels: number }[],
  columns: number,
): { readonly text: string; readonly pixels: number }[] {
  const lines: { names: string[]; pixels: number }[] = [];
  for (const { name, pixels } of [...places].sort((a, b) => a.pixels - b.pixels)) {
    const last = lines.at(-1);
    if (last !== undefined && pixels - last.pixels < LINE_PIXELS) last.names.push(printable(name));
    else lines.push({ names: [printable(name)], pixels });
  }
  return lines.map(({ names, pixels }) => ({ text: shorten(names.join(", "), columns), pixels }));
}
