const noColumn = /[\p{Mn}\p{Me}]/u;
// East Asian wide and fullwidth blocks and pictographs, by block: near enough for a table of names.
const twoColumns =
  /[\u1100-\u115F\u2E80-\uA4CF\uAC00-\uD7A3\uF900-\uFAFF\uFE30-\uFE6F\uFF01-\uFF60\uFFE0-\uFFE6\u{1F300}-\u{1FAFF}\u{20000}-\u{3FFFD}]/u;

/** Columns that a text takes up in a terminal: accents on a letter take none, East Asian characters two. */
export function displayWidth(text: string): number {
  let width = 0;
  for (const character of text) {
    width += noColumn.test(character) ? 0 : twoColumns.test(character) ? 2 : 1;
  }
  return width;
}
