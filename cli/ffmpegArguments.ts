import type { MediaCodec, MediaContainer, MediaFormat } from "../src/index.js";

const DEMUXERS: Readonly<Record<MediaContainer, string>> = {
  MP4: "mov",
  MP3: "mp3",
  FLAC: "flac",
  OGG: "ogg",
};

/** By ffmpeg's names; which of them an ffmpeg has depends on how it was built. */
const DECODERS: Readonly<Record<MediaCodec, readonly string[]>> = {
  AAC: ["aac", "aac_fixed", "aac_at", "libfdk_aac"],
  ALAC: ["alac", "alac_at"],
  AMR: ["amrnb", "amrwb", "libopencore_amrnb", "libopencore_amrwb"],
  FLAC: ["flac"],
  MP3: ["mp3", "mp3float", "mp3_at"],
  Opus: ["opus", "libopus"],
  PCM: [
    "pcm_s16le",
    "pcm_s16be",
    "pcm_s24le",
    "pcm_s24be",
    "pcm_s32le",
    "pcm_s32be",
    "pcm_f32le",
    "pcm_f32be",
  ],
  Vorbis: ["vorbis", "libvorbis"],
};

/**
 * What ffmpeg is told: read this one file as what its bytes say it is, decode its first sound with a decoder of that codec, and
 * write it as WAV (32-bit floating point, in which 24-bit samples fit exactly) to its standard output.
 *
 * Nothing else can be opened, whatever the file is in truth: the kind is forced, so that a playlist is not taken for one; only
 * plain files are let through, no network and no list of files; and a reference of an MP4 file to another file is not followed.
 *
 * @param file - opened as a plain file, whatever it is called
 */
export function ffmpegArguments(
  file: string,
  { container, codec }: MediaFormat,
  longestSeconds: number,
): string[] {
  const demuxer = DEMUXERS[container];
  return [
    ...["-nostdin", "-hide_banner", "-v", "error"],
    ...["-protocol_whitelist", "file", "-format_whitelist", demuxer],
    ...["-codec_whitelist", DECODERS[codec].join(",")],
    ...(container === "MP4" ? ["-enable_drefs", "0", "-use_absolute_path", "0"] : []),
    ...["-f", demuxer, "-i", `file:${file}`],
    ...["-map", "0:a:0", "-vn", "-sn", "-dn", "-map_metadata", "-1", "-map_chapters", "-1"],
    // A little more than is allowed, so that what is too long can be told.
    ...["-t", String(longestSeconds + 1)],
    ...["-c:a", "pcm_f32le", "-fflags", "+bitexact", "-f", "wav", "pipe:1"],
  ];
}
