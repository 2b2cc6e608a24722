import { deflateRawSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { crc32 } from "../../cli/page/keep/crc32.js";
import { packZip } from "../../cli/page/keep/packZip.js";
import { unpackZip } from "../../cli/page/keep/unpackZip.js";

const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer());

describe("the archive of what is kept", () => {
  it("has the check value of its sum", () => {
    // "123456789" gives CBF43926 (the check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms).
    expect(crc32(new TextEncoder().encode("123456789"))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array(0))).toBe(0);
  });

  it("gives back what was put in", async () => {
    const file = fc.record({
      path: fc
        .string({ unit: "grapheme", minLength: 1, maxLength: 30 })
        .filter((path) => !path.endsWith("/")),
      bytes: fc.uint8Array({ maxLength: 300 }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(file, { maxLength: 6 }), async (files) => {
        const archive = await packZip(
          files.map(({ path, bytes }) => ({ path, content: new Blob([bytes as never]) })),
        );
        const unpacked = await unpackZip(archive);
        expect(unpacked?.map(({ path }) => path)).toEqual(files.map(({ path }) => path));
        for (const [i, { content }] of unpacked!.entries())
          expect(await bytesOf(content)).toEqual(files[i]!.bytes);
      }),
      { seed: 5_190, numRuns: 100 },
    );
  });

  it("opens one whose files were compressed by another program", async () => {
    const text = Buffer.from("the same again, ".repeat(50));
    const packed = deflateRawSync(text);
    const stored = Buffer.from(
      await (await packZip([{ path: "a.txt", content: new Blob([packed as never]) }])).arrayBuffer(),
    );
    // Made into a deflated entry: method 8, and the size it unpacks to.
    const central = stored.indexOf("PK\x01\x02", 0, "latin1");
    stored.writeUInt16LE(8, 8);
    stored.writeUInt32LE(text.length, 22);
    stored.writeUInt16LE(8, central + 10);
    stored.writeUInt32LE(text.length, central + 24);
    stored.writeUInt32LE(crc32(text), central + 16);
    const [file] = (await unpackZip(new Blob([stored as never])))!;
    expect(Buffer.from(await bytesOf(file!.content))).toEqual(text);
  });

  it("takes no damage for an archive, nor ever throws", async () => {
    const whole = new Uint8Array(
      await (
        await packZip([
          { path: "a", content: new Blob(["some text"]) },
          { path: "b/c", content: new Blob(["more"]) },
        ])
      ).arrayBuffer(),
    );
    for (let length = 0; length < whole.length; length++) {
      expect(await unpackZip(new Blob([whole.subarray(0, length)]))).toBeNull();
    }
    const spoiled = whole.slice();
    spoiled[whole.indexOf(0x73)]! ^= 1; // the "s" that "some text" begins with
    expect(await unpackZip(new Blob([spoiled]))).toBeNull();
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.nat(255), async (at, value) => {
        const bad = whole.slice();
        bad[at] = value;
        await unpackZip(new Blob([bad]));
      }),
      { seed: 5_191, numRuns: 300 },
    );
  });
});
