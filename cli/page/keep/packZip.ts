import { crc32 } from "./crc32.js";

/** A file in an archive. */
export interface ArchivedFile {
  /** With the folders it lies in. */
  readonly path: string;
  readonly content: Blob;
}

const LOCAL_HEAD_BYTES = 30;
const CENTRAL_HEAD_BYTES = 46;
const END_BYTES = 22;
/** Names are UTF-8. */
const UTF8_FLAG = 0x0800;
/** 1 January 1980, the first day that the format knows: when a thing was kept stands in the contents. */
const FIRST_DAY = 0x0021;

/**
 * Packs files into a ZIP archive without compressing them (PKWARE's APPNOTE 6.3: stored entries), so that any system opens it. Contents are
 * not copied; one at a time is in memory.
 */
export async function packZip(files: readonly ArchivedFile[]): Promise<Blob> {
  const parts: BlobPart[] = [];
  const central: BlobPart[] = [];
  let offset = 0;
  let centralBytes = 0;
  for (const { path, content } of files) {
    const name = new TextEncoder().encode(path);
    const sum = crc32(new Uint8Array(await content.arrayBuffer()));
    const common = (view: DataView, at: number) => {
      view.setUint16(at, 20, true);
      view.setUint16(at + 2, UTF8_FLAG, true);
      view.setUint16(at + 8, FIRST_DAY, true);
      view.setUint32(at + 10, sum, true);
      view.setUint32(at + 14, content.size, true);
      view.setUint32(at + 18, content.size, true);
      view.setUint16(at + 22, name.length, true);
    };
    const local = new DataView(new ArrayBuffer(LOCAL_HEAD_BYTES));
    local.setUint32(0, 0x04034b50, true);
    common(local, 4);
    parts.push(local, name, content);
    const head = new DataView(new ArrayBuffer(CENTRAL_HEAD_BYTES));
    head.setUint32(0, 0x02014b50, true);
    head.setUint16(4, 20, true);
    common(head, 6);
    head.setUint32(42, offset, true);
    central.push(head, name);
    offset += LOCAL_HEAD_BYTES + name.length + content.size;
    centralBytes += CENTRAL_HEAD_BYTES + name.length;
  }
  const end = new DataView(new ArrayBuffer(END_BYTES));
  end.setUint32(0, 0x06054b50, true);
  end.setUint16(8, files.length, true);
  end.setUint16(10, files.length, true);
  end.setUint32(12, centralBytes, true);
  end.setUint32(16, offset, true);
  return new Blob([...parts, ...central, end], { type: "application/zip" });
}
