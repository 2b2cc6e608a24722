import { displayWidth } from "./displayWidth.js";

/**
 * Breaks a text at spaces into lines of at most `width` columns; a longer word stays whole.
 *
 * @param first - what stands before the first line
 * @param rest - what stands before the others; spaces as wide as `first` where not given
 */
export function wrapText(
  text: string,
  width: number,
  first = "",
  rest = " ".repeat(displayWidth(first)),
): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    const before = lines.length === 0 ? first : rest;
    const longer = line === "" ? word : `${line} ${word}`;
    if (line !== "" && displayWidth(before + longer) > width) {
      lines.push(before + line);
      line = word;
    } else {
      line = longer;
    }
  }
  lines.push((lines.length === 0 ? first : rest) + line);
  return lines;
}
