/** The four-character code at a place in a view, one character a byte (Latin-1), shorter where the view ends. */
export function fourCharacterCode(view: DataView, offset: number): string {
  let code = "";
  for (let at = offset; at < Math.min(offset + 4, view.byteLength); at++) {
    code += String.fromCharCode(view.getUint8(at));
  }
  return code;
}
