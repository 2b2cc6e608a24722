/** A four-character code for an error's details: bytes that are not printable ASCII become `\xNN`. */
export function printable(code: string): string {
  return code.replace(
    /[^\x20-\x7e]/g,
    (character) => `\\x${character.charCodeAt(0).toString(16).padStart(2, "0")}`,
  );
}
