const ANCESTORS = ["moov", "trak", "mdia", "minf", "dinf", "dref"];

/**
 * An MP4 file whose sound is said to stand in another file: the one entry of its table of references becomes an alias with an
 * absolute path (QuickTime File Format, Apple: "dref", "alis"; the fields that ffmpeg reads). Its index must come last, so that
 * nothing else moves.
 */
export function withReference(mp4: Buffer, path: string): Buffer {
  let from = 0;
  let to = mp4.length;
  const sizes: number[] = [];
  for (const type of ANCESTORS) {
    while (mp4.toString("latin1", from + 4, from + 8) !== type) {
      from += mp4.readUInt32BE(from);
      if (from >= to) throw new Error(`no ${type}`);
    }
    sizes.push(from);
    to = from + mp4.readUInt32BE(from);
    from += 8;
  }
  const name = Buffer.from(path.length % 2 === 0 ? path : `${path}\0`, "latin1");
  const record = Buffer.concat([Buffer.alloc(150), pair(2, name.length), name, pair(0xffff, 0)]);
  const entry = Buffer.concat([Buffer.alloc(4), Buffer.from("alis"), Buffer.alloc(4), record]);
  entry.writeUInt32BE(entry.length, 0);
  const old = mp4.subarray(from + 8, to);
  const changed = Buffer.concat([mp4.subarray(0, from + 8), entry, mp4.subarray(to)]);
  for (const at of sizes) changed.writeUInt32BE(mp4.readUInt32BE(at) + entry.length - old.length, at);
  return changed;
}

function pair(first: number, second: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt16BE(first, 0);
  bytes.writeUInt16BE(second, 2);
  return bytes;
}
