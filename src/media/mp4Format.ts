import { AnalysisError, type AnalysisErrorDetails } from "../errors.js";
import type { ByteSource } from "../wav/ByteSource.js";
import { printable } from "../wav/printable.js";
import type { MediaCodec, MediaFormat } from "./MediaFormat.js";

interface Box {
  readonly type: string;
  readonly from: number;
  readonly to: number;
}

// Far more than any file has at one level.
const MOST_BOXES = 10_000;

/** Names of sample entries: the registry of mp4ra.org and the QuickTime File Format (Apple). */
const CODECS: Readonly<Record<string, MediaCodec>> = {
  mp4a: "AAC",
  alac: "ALAC",
  fLaC: "FLAC",
  Opus: "Opus",
  ".mp3": "MP3",
  samr: "AMR",
  sawb: "AMR",
  sowt: "PCM",
  twos: "PCM",
  lpcm: "PCM",
  in24: "PCM",
  in32: "PCM",
  fl32: "PCM",
};

/**
 * What an MP4 file says of itself: the codec of the first track of sound in an MP4 file (M4A, a phone's video, QuickTime).
 *
 * @throws AnalysisError `media-unreadable`: cut off where there is no index (recorders write it last), no track of sound,
 * or a codec that is not let through
 */
export function mp4Format(source: ByteSource): MediaFormat {
  const movie = boxIn(source, 0, source.sizeBytes, "moov");
  if (movie === undefined || movie.to > source.sizeBytes) throw unreadable("cut-off");
  for (const track of boxes(source, movie.from, movie.to).filter(({ type }) => type === "trak")) {
    const media = boxIn(source, track.from, track.to, "mdia");
    const handler = media && boxIn(source, media.from, media.to, "hdlr");
    if (!media || !handler || textOf(source, handler.from + 8) !== "soun") continue;
    const table = ["minf", "stbl", "stsd"].reduce<Box | undefined>(
      (box, type) => box && boxIn(source, box.from, box.to, type),
      media,
    );
    const name = table === undefined ? "" : textOf(source, table.from + 12);
    const codec = Object.hasOwn(CODECS, name) ? CODECS[name] : undefined;
    if (codec !== undefined) return { container: "MP4", codec, promisedSeconds: null, isWhole: true };
    throw new AnalysisError("media-unreadable", {
      reason: "codec-unsupported",
      container: "MP4",
      codec: printable(name),
    });
  }
  throw unreadable("no-sound");
}

function boxIn(source: ByteSource, from: number, to: number, type: string): Box | undefined {
  return boxes(source, from, to).find((box) => box.type === type);
}

/** The boxes that follow one another from one place to another; a size of 0 reaches to the end, of 1 is written in 64 bits. */
function boxes(source: ByteSource, from: number, to: number): Box[] {
  const found: Box[] = [];
  let offset = from;
  while (offset + 8 <= to && found.length < MOST_BOXES) {
    const bytes = source.read(offset, 16);
    if (bytes.length < 8) break;
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const given = view.getUint32(0);
    const isLong = given === 1 && bytes.length === 16;
    const headerBytes = isLong ? 16 : 8;
    const size = isLong ? Number(view.getBigUint64(8)) : given === 0 ? to - offset : given;
    if (size < headerBytes) break;
    const type = String.fromCharCode(...bytes.subarray(4, 8));
    found.push({ type, from: offset + headerBytes, to: offset + size });
    offset += size;
  }
  return found;
}

function textOf(source: ByteSource, offset: number): string {
  return String.fromCharCode(...source.read(offset, 4));
}

function unreadable(reason: AnalysisErrorDetails["media-unreadable"]["reason"]): AnalysisError {
  return new AnalysisError("media-unreadable", { reason, container: "MP4" });
}
