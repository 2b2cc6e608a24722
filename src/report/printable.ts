/**
 * Makes a name from outside safe to print.
 *
 * Control characters (C0, C1, escape), invisible format characters (among them those that turn the reading
 * direction) and line and paragraph separators are written out as `\u{1b}`; half surrogate pairs likewise. A file
 * name can then neither move the cursor of a terminal nor make a line read as another one.
 *
 * @example
 * ```ts
 * printable("take\u001b[2J.wav"); // "take\\u{1b}[2J.wav"
 * ```
 */
export function printable(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu,
    (character) => `\\u{${character.codePointAt(0)!.toString(16)}}`,
  );
}
