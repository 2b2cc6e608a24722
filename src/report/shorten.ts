import { displayWidth } from "./displayWidth.js";

/** Cuts a text to at most `width` columns; what is cut off is marked by an ellipsis. */
export function shorten(text: string, width: number): string {
  if (displayWidth(text) <= width) return text;
  let kept = "";
  for (const character of text) {
    if (displayWidth(kept + character) > width - 1) break;
    kept += character;
  }
  return `${kept}…`;
}
