/** Builds WAV files by hand from the published layout, good or bad, for tests. */

export function ascii(text: string): number[] {
  return [...text].map((character) => character.charCodeAt(0));
}

/** An integer in `size` bytes, least significant first (or last). */
export function integer(value: number, size: number, littleEndian = true): number[] {
  const bytes = Array.from({ length: size }, (_, i) => Math.floor(value / 2 ** (8 * i)) & 0xff);
  return littleEndian ? bytes : bytes.reverse();
}

/** A chunk; `sizeBytes` other than the body's length makes it a lie, `pad: false` leaves the pad byte out. */
export function chunk(
  id: string,
  body: readonly number[],
  options: { sizeBytes?: number; pad?: boolean; littleEndian?: boolean } = {},
): number[] {
  const { sizeBytes = body.length, pad = true, littleEndian = true } = options;
  const padding = pad && body.length % 2 === 1 ? [0] : [];
  return [...ascii(id), ...integer(sizeBytes, 4, littleEndian), ...body, ...padding];
}

export interface FormatFields {
  tag?: number;
  channelCount?: number;
  sampleRateHz?: number;
  bits?: number;
  blockAlign?: number;
  averageBytesPerSecond?: number;
  littleEndian?: boolean;
}

/** The body of a 16-byte fmt chunk. */
export function formatBody(fields: FormatFields = {}): number[] {
  const { tag = 1, channelCount = 1, sampleRateHz = 48_000, bits = 16, littleEndian = true } = fields;
  const blockAlign = fields.blockAlign ?? channelCount * Math.ceil(bits / 8);
  const average = fields.averageBytesPerSecond ?? sampleRateHz * blockAlign;
  return [
    ...integer(tag, 2, littleEndian),
    ...integer(channelCount, 2, littleEndian),
    ...integer(sampleRateHz, 4, littleEndian),
    ...integer(average, 4, littleEndian),
    ...integer(blockAlign, 2, littleEndian),
    ...integer(bits, 2, littleEndian),
  ];
}

/** The body of a 40-byte fmt chunk of WAVE_FORMAT_EXTENSIBLE whose sub-format stands for `tag`. */
export function extensibleBody(
  fields: FormatFields & { validBits?: number; extraBytes?: number } = {},
): number[] {
  const { tag = 1, bits = 16, littleEndian = true } = fields;
  return [
    ...formatBody({ ...fields, tag: 0xfffe }),
    ...integer(fields.extraBytes ?? 22, 2, littleEndian),
    ...integer(fields.validBits ?? bits, 2, littleEndian),
    ...integer(0, 4, littleEndian),
    ...integer(tag, 4, littleEndian),
    ...integer(0, 2, littleEndian),
    ...integer(0x10, 2, littleEndian),
    ...[0x80, 0x00, 0x00, 0xaa, 0x00, 0x38, 0x9b, 0x71],
  ];
}

/** Chunks one after another behind a RIFF header. */
export function riff(chunks: readonly (readonly number[])[], id = "RIFF", form = "WAVE"): Uint8Array {
  const body = chunks.flat();
  return Uint8Array.from([
    ...ascii(id),
    ...integer(id === "RF64" || id === "BW64" ? 0xffffffff : body.length + 4, 4, id !== "RIFX"),
    ...ascii(form),
    ...body,
  ]);
}

/** 16-bit samples as bytes. */
export function samples16(values: readonly number[], littleEndian = true): number[] {
  return values.flatMap((value) => integer(value < 0 ? value + 0x10000 : value, 2, littleEndian));
}
