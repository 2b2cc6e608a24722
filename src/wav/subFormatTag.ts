// xxxxxxxx-0000-0010-8000-00AA00389B71 (Microsoft, WAVEFORMATEXTENSIBLE), all but its first four bytes. In RIFX
// files the middle fields are big-endian by rights; some writers copy the little-endian bytes (sox 14.4.2), others
// turn every four bytes round (wavefile 11).
const REGISTERED_TAILS = new Set([
  "00001000800000aa00389b71",
  "00000010800000aa00389b71",
  "00100000aa000080719b3800",
]);

/** The bytes of a view from `offset` in hexadecimal. */
export function hexadecimal(view: DataView, offset: number, length: number): string {
  let text = "";
  for (let at = offset; at < offset + length; at++) text += view.getUint8(at).toString(16).padStart(2, "0");
  return text;
}

/**
 * The wFormatTag inside the 16-byte sub-format identifier of WAVE_FORMAT_EXTENSIBLE, or null where the identifier
 * is not of the family that holds one.
 */
export function subFormatTag(view: DataView, offset: number, littleEndian: boolean): number | null {
  if (!REGISTERED_TAILS.has(hexadecimal(view, offset + 4, 12))) return null;
  const first = view.getUint32(offset, littleEndian);
  // sox writes the tag as a big-endian 16-bit number and the rest of the identifier after it.
  return !littleEndian && first % 0x10000 === 0 ? first / 0x10000 : first;
}
