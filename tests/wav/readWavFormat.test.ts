// fmt chunks as writers make them, good and bad. Layouts: Multimedia Programming Interface and Data Specifications
// 1.0 (1991), and Microsoft's WAVEFORMATEXTENSIBLE.
import { describe, expect, it } from "vitest";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { thrownBy } from "./thrownBy.js";
import { chunk, extensibleBody, formatBody, integer, riff, samples16 } from "./wavBytes.js";

const DATA = samples16([0, 16_384, -32_768, 32_767]);
const VALUES = [0, 0.5, -1, 32_767 / 32_768];

const open = (format: number[], data: number[] = DATA) =>
  openWav(memoryByteSource(riff([chunk("fmt ", format), chunk("data", data)])));
const valuesOf = (format: number[], data: number[] = DATA) => [...open(format, data).read(0, 100)[0]!];
const errorOf = (format: number[], data: number[] = DATA) => thrownBy(() => open(format, data));

describe("lengths of the fmt chunk", () => {
  it.each<[string, number[]]>([
    ["16 bytes", formatBody()],
    ["18 bytes", [...formatBody(), 0, 0]],
    ["14 bytes, bits taken from the block size", formatBody().slice(0, 14)],
    ["40 bytes with format 1", [...formatBody(), 22, 0, ...Array(22).fill(0)]],
    ["extensible, 40 bytes", extensibleBody()],
    ["extensible, 42 bytes", [...extensibleBody(), 7, 7]],
    ["extensible that says it has no extra bytes", extensibleBody({ extraBytes: 0 })],
    ["extensible with valid bits 0", extensibleBody({ validBits: 0 })],
    ["wrong average bytes per second", formatBody({ averageBytesPerSecond: 1 })],
    ["bits 0", formatBody({ bits: 0, blockAlign: 2 })],
  ])("%s", (_name, format) => {
    expect(valuesOf(format)).toEqual(VALUES);
  });

  it.each<[string, number[], number]>([
    ["13 bytes", formatBody().slice(0, 13), 14],
    ["none", [], 14],
    ["extensible, 16 bytes", formatBody({ tag: 0xfffe }), 40],
    ["extensible, 18 bytes", extensibleBody().slice(0, 18), 40],
    ["extensible, 39 bytes", extensibleBody().slice(0, 39), 40],
  ])("%s: too short", (_name, format, neededBytes) => {
    expect(errorOf(format)).toEqual({
      code: "wav-format-too-short",
      details: { byteOffset: 20, sizeBytes: format.length, neededBytes },
    });
  });
});

describe("bits and containers", () => {
  // "The bits that represent the sample amplitude are stored in the most significant bits" (1991, PCM format).
  it("reads 12 bits at the top of 16", () => {
    expect(valuesOf(formatBody({ bits: 12 }), samples16([0x7ff0, -0x8000, 0x10]))).toEqual([
      2047 / 2048,
      -1,
      1 / 2048,
    ]);
  });

  it.each<[string, number[]]>([
    ["plain", formatBody({ bits: 20 })],
    ["extensible, 20 of 24", extensibleBody({ bits: 24, validBits: 20 })],
  ])("reads 20 bits at the top of 24: %s", (_name, format) => {
    const data = [0x7ffff0, 0x800000, 0x10].flatMap((value) => integer(value, 3));
    expect(valuesOf(format, data)).toEqual([1 - 2 ** -19, -1, 2 ** -19]);
  });

  it.each<[string, number[]]>([
    ["plain, by the block size", formatBody({ bits: 24, blockAlign: 4 })],
    ["extensible, 24 of 32", extensibleBody({ bits: 32, validBits: 24 })],
  ])("reads 24 bits at the top of 32: %s", (_name, format) => {
    const data = [0x7fffff00, 0x80000000, 0x100].flatMap((value) => integer(value, 4));
    expect(valuesOf(format, data)).toEqual([1 - 2 ** -23, -1, 2 ** -23]);
  });

  it("reads 8 bits as unsigned", () => {
    expect(valuesOf(formatBody({ bits: 8 }), [0, 128, 192, 255])).toEqual([-1, 0, 0.5, 127 / 128]);
    expect(valuesOf(extensibleBody({ bits: 8 }), [0, 128, 192, 255])).toEqual([-1, 0, 0.5, 127 / 128]);
  });

  it("hands on what is not finite, and what is beyond full scale", () => {
    const view = new DataView(new ArrayBuffer(16));
    [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 2.5].forEach((value, i) => {
      view.setFloat32(4 * i, value, true);
    });
    expect(valuesOf(formatBody({ tag: 3, bits: 32 }), [...new Uint8Array(view.buffer)])).toEqual([
      Number.NaN,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      2.5,
    ]);
  });

  it("takes G.711 for eight bits whatever the bits say", () => {
    expect(valuesOf(formatBody({ tag: 6, bits: 16, blockAlign: 1 }), [0xaa, 0x2a])).toEqual([
      4032 / 4096,
      -4032 / 4096,
    ]);
  });
});

describe("numbers that cannot be", () => {
  const blockAlign = { byteOffset: 32, field: "blockAlign" };
  it.each<[string, number[], Record<string, unknown>]>([
    [
      "0 channels",
      formatBody({ channelCount: 0 }),
      { byteOffset: 22, field: "channelCount", given: 0, allowedMinimum: 1, allowedMaximum: 32 },
    ],
    ["33 channels", formatBody({ channelCount: 33 }), { field: "channelCount", given: 33 }],
    [
      "0 Hz",
      formatBody({ sampleRateHz: 0 }),
      { byteOffset: 24, field: "sampleRateHz", given: 0, allowedMinimum: 8000, allowedMaximum: 384_000 },
    ],
    ["7,999 Hz", formatBody({ sampleRateHz: 7999 }), { field: "sampleRateHz", given: 7999 }],
    ["384,001 Hz", formatBody({ sampleRateHz: 384_001 }), { field: "sampleRateHz", given: 384_001 }],
    [
      "33 bits",
      formatBody({ bits: 33 }),
      { byteOffset: 34, field: "bitsPerSample", given: 33, allowedMinimum: 1, allowedMaximum: 32 },
    ],
    [
      "float of 16 bits",
      formatBody({ tag: 3, bits: 16 }),
      { field: "bitsPerSample", given: 16, allowedMinimum: 32, allowedMaximum: 64 },
    ],
    [
      "blocks of one channel in a stereo file",
      formatBody({ channelCount: 2, blockAlign: 2 }),
      { ...blockAlign, given: 2, allowedMinimum: 4, allowedMaximum: 4 },
    ],
    [
      "blocks too small for 24 bits",
      formatBody({ bits: 24, blockAlign: 2 }),
      { ...blockAlign, given: 2, allowedMinimum: 3, allowedMaximum: 4 },
    ],
    ["blocks of 0 bytes", formatBody({ blockAlign: 0 }), { ...blockAlign, given: 0 }],
    [
      "blocks that no channel count divides",
      formatBody({ channelCount: 3, bits: 0, blockAlign: 4 }),
      { ...blockAlign, given: 4, allowedMinimum: 3, allowedMaximum: 12 },
    ],
    [
      "64-bit floats in blocks of four bytes",
      formatBody({ tag: 3, bits: 64, blockAlign: 4 }),
      { ...blockAlign, given: 4, allowedMinimum: 8, allowedMaximum: 8 },
    ],
    ["A-law of two bytes", formatBody({ tag: 6, bits: 16 }), { ...blockAlign, given: 2 }],
    [
      "more valid bits than the container has",
      extensibleBody({ bits: 16, validBits: 24 }),
      { byteOffset: 38, field: "validBits", given: 24, allowedMinimum: 0, allowedMaximum: 16 },
    ],
  ])("%s", (_name, format, details) => {
    expect(errorOf(format)).toMatchObject({ code: "wav-format-invalid", details });
  });

  it("takes the ends of each range", () => {
    expect(open(formatBody({ channelCount: 32 }), Array(64).fill(0)).channelCount).toBe(32);
    expect(open(formatBody({ sampleRateHz: 8000 })).sampleRateHz).toBe(8000);
    expect(open(formatBody({ sampleRateHz: 384_000 })).sampleRateHz).toBe(384_000);
  });
});

describe("codecs that are not decoded", () => {
  // Numbers: RFC 2361; AAC and the Windows Media family from the Windows header mmreg.h [from memory].
  it.each([
    [0x0002, "Microsoft ADPCM"],
    [0x0011, "IMA ADPCM"],
    [0x0020, "Yamaha ADPCM"],
    [0x0031, "GSM 6.10"],
    [0x0045, "G.726 ADPCM"],
    [0x0050, "MPEG layer 1 or 2"],
    [0x0055, "MPEG layer 3 (MP3)"],
    [0x00ff, "AAC"],
    [0x0161, "Windows Media Audio 2"],
    [0x0000, "format 0x0000"],
    [0xbeef, "format 0xBEEF"],
  ])("%i is %s", (tag, codec) => {
    const unsupported = {
      code: "wav-codec-unsupported",
      details: { byteOffset: 20, formatTag: tag, codec },
    };
    // Compressed formats have block sizes and bits that fit no container: the name must come first.
    expect(errorOf(formatBody({ tag, bits: 4, blockAlign: 1024 }))).toEqual(unsupported);
    expect(errorOf(extensibleBody({ tag, bits: 0, blockAlign: 1024 }))).toEqual(unsupported);
  });

  it("names a sub-format of another family by its bytes", () => {
    const format = [...extensibleBody().slice(0, 24), ...Array.from({ length: 16 }, (_, i) => i)];
    expect(errorOf(format)).toEqual({
      code: "wav-codec-unsupported",
      details: {
        byteOffset: 44,
        formatTag: 0xfffe,
        codec: "sub-format 000102030405060708090a0b0c0d0e0f",
      },
    });
  });
});
