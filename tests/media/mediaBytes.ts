/** A piece of a file made by hand. */
export type Part = string | number | Uint8Array;

/** Bytes of texts, numbers (one byte each) and arrays, one after another. */
export function bytesOf(...parts: readonly Part[]): Uint8Array {
  return Uint8Array.from(
    parts.flatMap((part) => {
      if (typeof part === "string") return [...part].map((letter) => letter.charCodeAt(0));
      return typeof part === "number" ? [part] : [...part];
    }),
  );
}

/** A number in four bytes, the highest first. */
export function big32(value: number): Uint8Array {
  return bytesOf((value >>> 24) & 0xff, (value >>> 16) & 0xff, (value >>> 8) & 0xff, value & 0xff);
}

/** A box of an MP4 file (ISO/IEC 14496-12, 4.2). */
export function box(type: string, ...content: readonly Part[]): Uint8Array {
  const body = bytesOf(...content);
  return bytesOf(big32(8 + body.length), type, body);
}

/** A track of an MP4 file with the kind of its handler and the name of its sample entry. */
export function track(handler: string, entry: string): Uint8Array {
  const zeros = (count: number) => new Uint8Array(count);
  const table = box("stsd", zeros(4), big32(1), box(entry, zeros(28)));
  return box("trak", box("mdia", box("hdlr", zeros(8), handler, zeros(13)), box("minf", box("stbl", table))));
}

/** A page of an Ogg file (RFC 3533, 6), its checksum left out. */
export function oggPage(flags: number, body: Uint8Array): Uint8Array {
  const segments = Array.from({ length: Math.floor(body.length / 255) + 1 }, (_, i) =>
    Math.min(255, body.length - 255 * i),
  );
  return bytesOf("OggS", 0, flags, new Uint8Array(20), segments.length, ...segments, body);
}

/**
 * An MP3 frame of silence: MPEG 1 layer III, 128 kilobits a second, 44.1 kHz, one channel. Its size follows from ISO/IEC 11172-3,
 * 2.4.3.1: 144 x 128,000 / 44,100 bytes, rounded down.
 */
export function mp3Frame(content: Uint8Array = new Uint8Array(0)): Uint8Array {
  const frame = new Uint8Array(417);
  frame.set([0xff, 0xfb, 0x90, 0xc0]);
  frame.set(content, 4 + 17);
  return frame;
}
