import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { A_LAW_TABLE, MU_LAW_TABLE } from "../../src/wav/g711Tables.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { chunk, formatBody, riff } from "./wavBytes.js";

/** All codes as other programs decode them to 16 bits (data/README.md). */
function decodedElsewhere(file: string): number[] {
  const bytes = readFileSync(new URL(`data/${file}`, import.meta.url));
  return Array.from({ length: 256 }, (_, code) => bytes.readInt16LE(2 * code));
}

// Exact: every value is a whole number of 2^-15, which a 32-bit float holds.
describe.each([
  ["A-law", 6, A_LAW_TABLE, ["g711-alaw-ffmpeg.s16", "g711-alaw-sox.s16"]],
  ["mu-law", 7, MU_LAW_TABLE, ["g711-mulaw-ffmpeg.s16", "g711-mulaw-sox.s16"]],
] as const)("%s", (_name, tag, table, files) => {
  it.each(files)("agrees with %s at all 256 codes", (file) => {
    expect([...table].map((value) => value * 2 ** 15)).toEqual(decodedElsewhere(file));
  });

  it("is what the decoder uses", () => {
    const codes = Array.from({ length: 256 }, (_, code) => code);
    const bytes = riff([chunk("fmt ", formatBody({ tag, bits: 8 })), chunk("data", codes)]);
    expect(openWav(memoryByteSource(bytes)).read(0, 256)[0]).toEqual(table);
  });
});

describe("values of ITU-T G.711", () => {
  // Tables 1a/1b and 2a/2b, quantised values y_n of the first and last steps [from memory]: A-law +-1 and +-4032 of
  // 4096 with even bits inverted, mu-law 0, 2 and 8031 of 8192 with all bits inverted.
  it.each([
    [0xd5, 1],
    [0x55, -1],
    [0xaa, 4032],
    [0x2a, -4032],
    [0xd4, 3],
  ])("A-law code %i stands for %i / 4096", (code, value) => {
    expect(A_LAW_TABLE[code]).toBe(value / 4096);
  });

  it.each([
    [0xff, 0],
    [0xfe, 2],
    [0x80, 8031],
    [0x00, -8031],
  ])("mu-law code %i stands for %i / 8192", (code, value) => {
    expect(MU_LAW_TABLE[code]).toBe(value / 8192);
  });
});
