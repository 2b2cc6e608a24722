// Sizes of the data chunk that are unset, too large, 64 bits long or wrong.
import { describe, expect, it } from "vitest";
import type { ByteSource } from "../../src/wav/ByteSource.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { chunk, formatBody, integer, riff, samples16 } from "./wavBytes.js";

const FORMAT = chunk("fmt ", formatBody());
const SAMPLES = samples16([1, -2, 3]);
const open = (bytes: Uint8Array) => openWav(memoryByteSource(bytes));

describe("a size that was never set", () => {
  it.each([0, 0xffffffff, 0x7ffff000])("%i: takes the rest of the file", (sizeBytes) => {
    const recording = open(riff([FORMAT, chunk("data", SAMPLES, { sizeBytes })]));
    expect(recording.frameCount).toBe(3);
    expect(recording.decodingNotes).toEqual([
      { code: "wav-size-unset", values: { byteOffset: 44, promisedBytes: sizeBytes, foundBytes: 6 } },
    ]);
  });

  it.each<[string, number[]]>([
    ["silence", Array(4000).fill(0)],
    ["one chunk id, then samples", [...chunk("LIST", [1, 2, 3, 4]), ...Array(996).fill(200)]],
    ["fewer bytes than a chunk header", [1, 2, 3, 4]],
  ])("0 before %s: samples, not an empty chunk", (_name, body) => {
    const recording = open(riff([FORMAT, chunk("data", body, { sizeBytes: 0 })]));
    expect(recording.frameCount).toBe(body.length / 2);
    expect(recording.decodingNotes[0]?.code).toBe("wav-size-unset");
  });

  it("does not note a half frame as well", () => {
    const recording = open(riff([FORMAT, chunk("data", [...SAMPLES, 1], { sizeBytes: 0, pad: false })]));
    expect(recording.frameCount).toBe(3);
    expect(recording.decodingNotes.map((note) => note.code)).toEqual(["wav-size-unset"]);
  });
});

describe("data that ends before or within a frame", () => {
  it("notes what was promised and what was found", () => {
    const recording = open(riff([FORMAT, chunk("data", SAMPLES, { sizeBytes: 1000 })]));
    expect(recording.frameCount).toBe(3);
    expect(recording.decodingNotes).toEqual([
      { code: "wav-truncated", values: { byteOffset: 44, promisedBytes: 1000, foundBytes: 6 } },
    ]);
  });

  it("notes bytes that are no whole frame", () => {
    const stereo = chunk("fmt ", formatBody({ channelCount: 2 }));
    const recording = open(riff([stereo, chunk("data", SAMPLES)]));
    expect(recording.frameCount).toBe(1);
    expect(recording.decodingNotes).toEqual([
      { code: "wav-partial-frame", values: { byteOffset: 48, extraBytes: 2, frameBytes: 4 } },
    ]);
  });

  it("returns what is left when the source has become shorter since", () => {
    const bytes = riff([FORMAT, chunk("data", SAMPLES)]);
    let end = bytes.length;
    const source: ByteSource = {
      sizeBytes: bytes.length,
      read: (offset, length) => bytes.subarray(offset, Math.min(end, offset + length)),
    };
    const recording = openWav(source);
    end -= 3;
    expect(recording.read(0, 3)[0]).toEqual(Float32Array.of(1 / 32_768));
    expect(recording.read(2, 1)[0]?.length).toBe(0);
  });
});

describe("sizes of 64 bits (EBU Tech 3306)", () => {
  const ds64 = (dataBytes: number, table: number[] = [], tableLength = table.length / 12) =>
    chunk("ds64", [
      ...integer(0, 8),
      ...integer(dataBytes, 8),
      ...integer(0, 8),
      ...integer(tableLength, 4),
      ...table,
    ]);
  const unset = { sizeBytes: 0xffffffff };

  /** A file of any size: the bytes given, then zeros, and `last` at its very end. */
  function sparse(start: Uint8Array, sizeBytes: number, last: number[]): ByteSource {
    return {
      sizeBytes,
      read(offset, length) {
        const bytes = new Uint8Array(Math.min(length, sizeBytes - offset));
        for (let i = 0; i < bytes.length; i++) {
          const at = offset + i;
          bytes[i] = (at < start.length ? start[at] : last[at - sizeBytes + last.length]) ?? 0;
        }
        return bytes;
      },
    };
  }

  it.each(["RF64", "BW64"])("%s: takes the size from ds64, before a chunk that follows", (id) => {
    const bytes = riff([ds64(6), FORMAT, chunk("data", SAMPLES, unset), chunk("LIST", [1, 2])], id);
    const recording = open(bytes);
    expect(recording.frameCount).toBe(3);
    expect(recording.decodingNotes).toEqual([]);
  });

  it("reads beyond 4 GiB", () => {
    const dataBytes = 6 * 2 ** 30;
    const start = riff([ds64(dataBytes), FORMAT, chunk("data", [], unset)], "RF64");
    const source = sparse(start, start.length + dataBytes, samples16([-32_768, 16_384]));
    const recording = openWav(source);
    expect(recording.frameCount).toBe(3 * 2 ** 30);
    expect(recording.decodingNotes).toEqual([]);
    expect(recording.read(recording.frameCount - 3, 10)).toEqual([Float32Array.of(0, -1, 0.5)]);
  });

  it("finds fmt behind data that is longer than 32 bits can say", () => {
    const dataBytes = 5 * 2 ** 30;
    const start = riff([ds64(dataBytes), chunk("data", [], unset)], "RF64");
    const recording = openWav(sparse(start, start.length + dataBytes + FORMAT.length, FORMAT));
    expect(recording.frameCount).toBe(dataBytes / 2);
  });

  it("takes the size of another long chunk from the table", () => {
    const junkBytes = 5 * 2 ** 30;
    const table = [...chunk("junk", []).slice(0, 4), ...integer(junkBytes, 8)];
    const start = riff([ds64(6, table), FORMAT, chunk("junk", [], unset)], "RF64");
    const end = chunk("data", SAMPLES, unset);
    const recording = openWav(sparse(start, start.length + junkBytes + end.length, end));
    expect([...recording.read(0, 9)[0]!]).toEqual([1 / 32_768, -2 / 32_768, 3 / 32_768]);
  });

  it("is not led astray by a table that promises 2^32 - 1 entries", () => {
    const bytes = riff([ds64(6, [], 0xffffffff), FORMAT, chunk("data", SAMPLES, unset)], "RF64");
    expect(open(bytes).frameCount).toBe(3);
  });

  it.each<[string, number[][]]>([
    ["no ds64", []],
    ["a ds64 left at zero", [ds64(0)]],
    ["a ds64 that is too short", [chunk("ds64", [1, 2, 3, 4])]],
  ])("%s: the size counts as unset", (_name, before) => {
    const recording = open(riff([...before, FORMAT, chunk("data", SAMPLES, unset)], "RF64"));
    expect(recording.frameCount).toBe(3);
    expect(recording.decodingNotes[0]?.code).toBe("wav-size-unset");
  });

  it("counts all bits set as unset, and any other size beyond the end as truncated", () => {
    const allOnes = ds64(0);
    allOnes.fill(0xff, 16, 24);
    const file = (first: number[]) => open(riff([first, FORMAT, chunk("data", SAMPLES, unset)], "RF64"));
    expect(file(allOnes).decodingNotes[0]?.code).toBe("wav-size-unset");
    expect(file(ds64(2 ** 40)).decodingNotes).toEqual([
      { code: "wav-truncated", values: { byteOffset: 80, promisedBytes: 2 ** 40, foundBytes: 6 } },
    ]);
  });

  it("undoes a 32-bit size that has run over", () => {
    const dataBytes = 2 ** 32 + 4;
    const start = riff([FORMAT, chunk("data", [], { sizeBytes: dataBytes % 2 ** 32 })]);
    const recording = openWav(sparse(start, start.length + dataBytes, []));
    expect(recording.frameCount).toBe(dataBytes / 2);
    expect(recording.decodingNotes[0]?.code).toBe("wav-size-unset");
  });
});
