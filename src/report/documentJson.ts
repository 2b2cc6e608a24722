/**
 * Writes a document as JSON that is also safe to print: JSON itself escapes only C0 control characters, so all
 * other control, direction and separator characters (see `printable`) are written as `\uXXXX` here. Reading it
 * gives the same document back. Ends with a line break.
 *
 * @param indent - spaces a level; 0 sets it all on one line
 */
export function documentJson(document: object, indent = 2): string {
  const json = JSON.stringify(document, null, indent);
  return `${json.replace(/(?!\n)[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, codeUnits)}\n`;
}

function codeUnits(character: string): string {
  return Array.from(
    { length: character.length },
    (_, index) => `\\u${character.charCodeAt(index).toString(16).padStart(4, "0")}`,
  ).join("");
}
