import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { sniffMedia } from "../../src/media/sniffMedia.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { big32, box, bytesOf, mp3Frame, oggPage, type Part, track } from "./mediaBytes.js";

const sniff = (...parts: readonly Part[]) => sniffMedia(memoryByteSource(bytesOf(...parts)));
const failure = (...parts: readonly Part[]) => {
  try {
    return sniff(...parts);
  } catch (error) {
    return error instanceof AnalysisError && error.is("media-unreadable") ? error.details : error;
  }
};
const start = box("ftyp", "M4A ", big32(0));

describe("sniffMedia", () => {
  it.each([
    ["mp4a", "AAC"],
    ["alac", "ALAC"],
    ["fLaC", "FLAC"],
    ["Opus", "Opus"],
    ["samr", "AMR"],
    ["sowt", "PCM"],
  ])("knows the codec of an MP4 file by its first track of sound: %s", (entry, codec) => {
    const found = { container: "MP4", codec, promisedSeconds: null, isWhole: true };
    const index = box("moov", box("mvhd", new Uint8Array(100)), track("vide", "avc1"), track("soun", entry));
    expect(sniff(start, box("mdat", new Uint8Array(500)), index)).toEqual(found);
    expect(sniff(start, index, box("mdat", new Uint8Array(500)))).toEqual(found);
    // A size in 64 bits, and one that reaches to the end.
    const long = bytesOf(big32(1), "mdat", big32(0), big32(16 + 5), new Uint8Array(5));
    expect(sniff(start, long, index)).toEqual(found);
    expect(sniff(start, index, big32(0), "mdat", new Uint8Array(9))).toEqual(found);
  });

  it("says what is wrong with an MP4 file", () => {
    const about = { container: "MP4" };
    expect(failure(start, box("mdat", new Uint8Array(500)))).toEqual({ ...about, reason: "cut-off" });
    const index = box("moov", track("soun", "mp4a"));
    expect(failure(start, index.subarray(0, index.length - 1))).toEqual({ ...about, reason: "cut-off" });
    expect(failure(start, box("moov", track("vide", "avc1")))).toEqual({ ...about, reason: "no-sound" });
    expect(failure(start, box("moov", track("soun", "drms")))).toEqual({
      ...about,
      reason: "codec-unsupported",
      codec: "drms",
    });
    expect(failure(start, box("moov", track("soun", "a\u001b[2")))).toMatchObject({
      reason: "codec-unsupported",
      codec: expect.not.stringContaining("\u001b"),
    });
    // A name of every object is no codec.
    expect(failure(start, box("moov", track("soun", "toSt")))).toMatchObject({ reason: "codec-unsupported" });
  });

  it("knows MP3 by two frames, behind tags too, and how long it says it is", () => {
    const found = { container: "MP3", codec: "MP3", promisedSeconds: null, isWhole: true };
    expect(sniff(mp3Frame(), mp3Frame())).toEqual(found);
    // A tag of 2 x 128 + 3 bytes, its size written in sevens of bits, padded with zeros beyond it.
    const tag = bytesOf("ID3", 4, 0, 0, 0, 0, 2, 3, new Uint8Array(259));
    expect(sniff(tag, new Uint8Array(40), mp3Frame(), mp3Frame())).toEqual(found);
    expect(sniff(tag, tag, mp3Frame(), mp3Frame())).toEqual(found);
    const info = bytesOf("Info", big32(1), big32(441));
    // 441 frames of 1,152 samples at 44.1 kHz.
    expect(sniff(mp3Frame(info), mp3Frame())).toEqual({ ...found, promisedSeconds: 11.52 });
    expect(sniff(mp3Frame())).toBeNull();
    expect(sniff(0xff, 0xfb, 0x90, 0xc0, "noise that is no second frame".repeat(40))).toBeNull();
    expect(failure(tag, "#EXTM3U\nfile:///other\n")).toEqual({ container: "MP3", reason: "no-sound" });
  });

  it("knows FLAC, behind a tag too, and how long it says it is", () => {
    // RFC 9639, 8.2: 48,000 Hz in 20 bits, one channel and 16 bits in 8, 96,000 samples in 36.
    const info = bytesOf("fLaC", 0, 0, 0, 34, new Uint8Array(10), 0x0b, 0xb8, 0x00, 0xf0, big32(96_000));
    const found = { container: "FLAC", codec: "FLAC", promisedSeconds: 2, isWhole: true };
    expect(sniff(info)).toEqual(found);
    expect(sniff("ID3", 4, 0, 0, 0, 0, 0, 5, "abcde", info)).toEqual(found);
    expect(sniff("fLaC")).toEqual({ ...found, promisedSeconds: null });
  });

  it("knows the codec of an Ogg file by its first stream of sound, and whether its end is there", () => {
    const found = { container: "OGG", promisedSeconds: null };
    const vorbis = oggPage(2, bytesOf("\u0001vorbis", new Uint8Array(23)));
    const last = oggPage(4, new Uint8Array(300));
    expect(sniff(vorbis, last)).toEqual({ ...found, codec: "Vorbis", isWhole: true });
    expect(sniff(vorbis, last.subarray(0, last.length - 1))).toMatchObject({ isWhole: false });
    expect(sniff(vorbis, oggPage(0, new Uint8Array(300)))).toMatchObject({ isWhole: false });
    expect(sniff(oggPage(2, bytesOf("\u0080theora")), vorbis, last)).toMatchObject({ codec: "Vorbis" });
    expect(sniff(oggPage(2, bytesOf("OpusHead")), last)).toMatchObject({ codec: "Opus" });
    expect(sniff(oggPage(2, bytesOf("\u007fFLAC")), last)).toMatchObject({ codec: "FLAC" });
    expect(failure(oggPage(2, bytesOf("\u0080theora")), last)).toEqual({
      container: "OGG",
      reason: "no-sound",
    });
  });

  it.each([
    ["a playlist", "#EXTM3U\n#EXTINF:10,\nfile:///etc/passwd\n"],
    ["a list of files", "ffconcat version 1.0\nfile /etc/passwd\n"],
    ["a stream's manifest", '<?xml version="1.0"?><MPD><BaseURL>http://127.0.0.1/</BaseURL></MPD>'],
    ["a picture", '<svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/passwd"/></svg>'],
    ["a session description", "v=0\no=- 0 0 IN IP4 127.0.0.1\n"],
    ["WAV", "RIFF\u0000\u0000\u0000\u0000WAVE"],
    ["nothing", ""],
  ])("takes %s for none of these", (_, text) => {
    expect(sniff(text)).toBeNull();
  });

  it("ends with a format, null or its own error on any bytes", () => {
    const heads = [
      "ID3",
      "OggS\u0000\u0002",
      "fLaC",
      "\u0000\u0000\u0000\u0010ftyp",
      "\u00ff\u00fb\u0090\u00c0",
      "",
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...heads),
        fc.array(
          fc.oneof(fc.uint8Array({ maxLength: 40 }), fc.constantFrom("moov", "trak", "mdia", "OggS")),
          {
            maxLength: 12,
          },
        ),
        (head, parts) => {
          const result = failure(head, ...parts);
          expect(result).not.toBeInstanceOf(Error);
        },
      ),
      { seed: 7711, numRuns: 2000 },
    );
  });
});
