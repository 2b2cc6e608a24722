import { describe, expect, it } from "vitest";
import type { ByteSource } from "../../src/wav/ByteSource.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { thrownBy } from "./thrownBy.js";
import { ascii, chunk, extensibleBody, formatBody, integer, riff, samples16 } from "./wavBytes.js";

const FORMAT = chunk("fmt ", formatBody());
const DATA = chunk("data", samples16([1, -2, 3]));
const VALUES = [1 / 32_768, -2 / 32_768, 3 / 32_768];
const LIST = chunk("LIST", [...ascii("INFO"), ...chunk("ISFT", ascii("test!"))]);

const open = (bytes: Uint8Array | number[]) => openWav(memoryByteSource(Uint8Array.from(bytes)));
const valuesOf = (bytes: Uint8Array | number[]) => [...open(bytes).read(0, 100)[0]!];

/** Counts how much is read, so that a chunk that is not needed can be shown to stay unread. */
function counting(bytes: Uint8Array): ByteSource & { readBytes: number } {
  return {
    readBytes: 0,
    sizeBytes: bytes.length,
    read(offset, length) {
      this.readBytes += length;
      return bytes.subarray(offset, offset + length);
    },
  };
}

describe("chunks in any order", () => {
  it.each<[string, number[][]]>([
    ["LIST before fmt", [LIST, FORMAT, DATA]],
    ["two LIST chunks", [FORMAT, LIST, LIST, DATA, LIST]],
    ["fmt after data", [DATA, FORMAT]],
    ["fmt after odd data", [chunk("data", [1, 0, 0xfe, 0xff, 3, 0, 9]), FORMAT]],
    ["an odd chunk with its pad byte", [chunk("iXML", ascii("<a/> ")), FORMAT, DATA]],
    [
      "an odd chunk without its pad byte before fmt",
      [chunk("iXML", ascii("<a/> "), { pad: false }), FORMAT, DATA],
    ],
    [
      "an odd chunk without its pad byte before data",
      [FORMAT, chunk("bext", [1, 2, 3], { pad: false }), DATA],
    ],
    ["a pad byte that is not 0", [chunk("bext", [1, 2, 3], { pad: false }), [0x66], FORMAT, DATA]],
    ["an empty data chunk before the real one", [FORMAT, chunk("data", []), DATA]],
    ["a second fmt chunk", [FORMAT, chunk("fmt ", formatBody({ bits: 8 })), DATA]],
    ["a second data chunk", [FORMAT, DATA, chunk("data", [9, 9])]],
  ])("%s", (_name, chunks) => {
    expect(valuesOf(riff(chunks))).toEqual(VALUES);
  });

  it.each<[string, number[]]>([
    ["bytes that are no chunk", [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]],
    ["a chunk beyond the end", chunk("LIST", [1, 2], { sizeBytes: 0xfffffff0 })],
    ["half a chunk header", ascii("LIST")],
  ])("junk after data changes nothing: %s", (_name, junk) => {
    const recording = open(riff([FORMAT, DATA, junk]));
    expect([...recording.read(0, 100)[0]!]).toEqual(VALUES);
    expect(recording.decodingNotes).toEqual([]);
  });

  it("takes odd data at the end of the file without its pad byte", () => {
    const bytes = riff([
      chunk("fmt ", formatBody({ bits: 8 })),
      chunk("data", [0, 128, 192], { pad: false }),
    ]);
    const recording = open(bytes);
    expect([...recording.read(0, 9)[0]!]).toEqual([-1, 0, 0.5]);
    expect(recording.decodingNotes).toEqual([]);
  });

  it("does not take a pad byte for a sample", () => {
    const bytes = riff([chunk("fmt ", formatBody({ bits: 8 })), chunk("data", [0, 128, 192])]);
    expect(open(bytes).frameCount).toBe(3);
  });

  it("reads RIFX, RF64 without need of its 64-bit sizes, and BW64", () => {
    const big = { littleEndian: false };
    const rifx = [chunk("fmt ", formatBody(big), big), chunk("data", samples16([1, -2, 3], false), big)];
    expect(valuesOf(riff(rifx, "RIFX"))).toEqual(VALUES);
    const extensible = [chunk("fmt ", extensibleBody(big), big), rifx[1]!];
    expect(valuesOf(riff(extensible, "RIFX"))).toEqual(VALUES);
    expect(valuesOf(riff([FORMAT, DATA], "RF64"))).toEqual(VALUES);
    expect(valuesOf(riff([FORMAT, DATA], "BW64"))).toEqual(VALUES);
  });

  it("does not believe the RIFF size", () => {
    for (const size of [0, 1, 0xffffffff]) {
      const bytes = riff([FORMAT, DATA]);
      bytes.set(integer(size, 4), 4);
      expect(valuesOf(bytes)).toEqual(VALUES);
    }
  });

  it("leaves chunks unread that it does not need", () => {
    // A cue chunk that promises 2^32 - 1 cues, inside a body of 100,000 bytes.
    const cue = chunk("cue ", [...integer(0xffffffff, 4), ...Array(99_996).fill(1)]);
    const source = counting(riff([cue, FORMAT, DATA, cue]));
    expect([...openWav(source).read(0, 3)[0]!]).toEqual(VALUES);
    expect(source.readBytes).toBeLessThan(100);
  });
});

describe("files that hold no recording", () => {
  it.each<[string, number[] | Uint8Array, string, Record<string, unknown>]>([
    ["nothing", [], "wav-not-riff", { byteOffset: 0, found: "", sizeBytes: 0 }],
    ["three bytes", ascii("RIF"), "wav-not-riff", { byteOffset: 0, found: "RIF", sizeBytes: 3 }],
    [
      "an Ogg file",
      [...ascii("OggS"), ...Array(100).fill(0)],
      "wav-not-riff",
      { byteOffset: 0, found: "OggS", sizeBytes: 104 },
    ],
    [
      "bytes that cannot be printed",
      [0xff, 0xfb, 0x90, 0x00, 1],
      "wav-not-riff",
      { byteOffset: 0, found: "\\xff\\xfb\\x90\\x00", sizeBytes: 5 },
    ],
    ["an AVI file", riff([], "RIFF", "AVI "), "wav-not-wave", { byteOffset: 8, found: "AVI " }],
    ["only a RIFF id", ascii("RIFF"), "wav-not-wave", { byteOffset: 8, found: "" }],
    ["a header alone", riff([]), "wav-no-format", { byteOffset: 12 }],
    ["no fmt chunk", riff([LIST, DATA]), "wav-no-format", { byteOffset: 12 + LIST.length + DATA.length }],
    ["no data chunk", riff([FORMAT, LIST]), "wav-no-data", { byteOffset: 36 + LIST.length }],
    [
      "a chunk that reaches beyond the end where data should be",
      riff([FORMAT, chunk("junk", [1, 2], { sizeBytes: 0x7fffffff })]),
      "wav-no-data",
      { byteOffset: 46 },
    ],
    ["half a data header", riff([FORMAT, ascii("data12")]), "wav-no-data", { byteOffset: 36 }],
    ["no samples", riff([FORMAT, chunk("data", [])]), "recording-empty", { durationSeconds: 0 }],
    [
      "no samples but a LIST",
      riff([FORMAT, chunk("data", []), LIST]),
      "recording-empty",
      { durationSeconds: 0 },
    ],
    [
      "no samples but an odd chunk without its pad byte",
      riff([FORMAT, chunk("data", []), chunk("iXML", ascii("<a/> "), { pad: false })]),
      "recording-empty",
      { durationSeconds: 0 },
    ],
    [
      "a fmt chunk only among samples whose size was never set",
      riff([chunk("data", []), FORMAT, Array(50).fill(200)]),
      "wav-no-format",
      { byteOffset: 94 },
    ],
    ["half a frame", riff([FORMAT, chunk("data", [1])]), "recording-empty", { durationSeconds: 0 }],
  ])("%s", (_name, bytes, code, details) => {
    expect(thrownBy(() => open(bytes))).toEqual({ code, details });
  });

  it("gives up after 10,000 chunks, empty data chunks among them", () => {
    for (const id of ["junk", "data"]) {
      const empty = Array.from({ length: 20_000 }, () => chunk(id, [])).flat();
      const source = counting(riff([empty]));
      expect(thrownBy(() => openWav(source)).code).toBe("wav-no-format");
      // Eight bytes a chunk header, and no header more than twice.
      expect(source.readBytes).toBeLessThan(2 * 8 * 10_000 + 100);
    }
  });
});
