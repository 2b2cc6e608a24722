import { crc32 } from "./crc32.js";
import type { ArchivedFile } from "./packZip.js";

const END_BYTES = 22;
const LONGEST_COMMENT_BYTES = 65_535;
const LOCAL_HEAD_BYTES = 30;
const CENTRAL_HEAD_BYTES = 46;
const STORED = 0;
const DEFLATED = 8;

/**
 * The files of a ZIP archive: our own, or one that was packed anew by another program (stored or deflated entries).
 *
 * @returns null where it is no such archive, or is damaged
 */
export async function unpackZip(archive: Blob): Promise<ArchivedFile[] | null> {
  try {
    const end = await findEnd(archive);
    if (end === null) return null;
    const view = await viewOf(archive, end.offset, end.sizeBytes);
    const files: ArchivedFile[] = [];
    for (let at = 0, i = 0; i < end.count; i++) {
      if (view.getUint32(at, true) !== 0x02014b50) return null;
      const method = view.getUint16(at + 10, true);
      const packedBytes = view.getUint32(at + 20, true);
      const sizeBytes = view.getUint32(at + 24, true);
      const nameBytes = view.getUint16(at + 28, true);
      const path = new TextDecoder().decode(new Uint8Array(view.buffer, at + CENTRAL_HEAD_BYTES, nameBytes));
      const start = await contentStart(archive, view.getUint32(at + 42, true));
      const packed = archive.slice(start, start + packedBytes);
      if (start + packedBytes > archive.size || (method !== STORED && method !== DEFLATED)) return null;
      if (!path.endsWith("/")) {
        const content = method === STORED ? packed : await inflated(packed);
        const sum = crc32(new Uint8Array(await content.arrayBuffer()));
        if (content.size !== sizeBytes || sum !== view.getUint32(at + 16, true)) return null;
        files.push({ path, content });
      }
      at += CENTRAL_HEAD_BYTES + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    }
    return files;
  } catch {
    // It ends before it should, or what is packed in it is damaged.
    return null;
  }
}

async function findEnd(archive: Blob) {
  const from = Math.max(0, archive.size - END_BYTES - LONGEST_COMMENT_BYTES);
  const view = await viewOf(archive, from, archive.size - from);
  for (let at = view.byteLength - END_BYTES; at >= 0; at--) {
    if (view.getUint32(at, true) !== 0x06054b50) continue;
    return {
      count: view.getUint16(at + 10, true),
      sizeBytes: view.getUint32(at + 12, true),
      offset: view.getUint32(at + 16, true),
    };
  }
  return null;
}

async function contentStart(archive: Blob, localOffset: number): Promise<number> {
  const view = await viewOf(archive, localOffset, LOCAL_HEAD_BYTES);
  return localOffset + LOCAL_HEAD_BYTES + view.getUint16(26, true) + view.getUint16(28, true);
}

async function viewOf(archive: Blob, offset: number, length: number): Promise<DataView> {
  return new DataView(await archive.slice(offset, offset + length).arrayBuffer());
}

function inflated(packed: Blob): Promise<Blob> {
  return new Response(packed.stream().pipeThrough(new DecompressionStream("deflate-raw"))).blob();
}
