import fc from "fast-check";
import { describe, expect, it } from "vitest";
import wavefile from "wavefile";
import { AnalysisError } from "../../src/errors.js";
import type { ByteSource } from "../../src/wav/ByteSource.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { ascii, chunk, extensibleBody, formatBody, riff, samples16 } from "./wavBytes.js";

const int16 = fc.integer({ min: -32_768, max: 32_767 });

describe("openWav, for any file", () => {
  it("finds the same samples with other chunks in any order around them", () => {
    const other = fc
      .tuple(
        fc.constantFrom("LIST", "bext", "cue ", "fact", "iXML", "JUNK", "PEAK", "smpl"),
        fc.array(fc.nat(255), { maxLength: 21 }),
      )
      .map(([id, body]) => chunk(id, body));
    fc.assert(
      fc.property(
        fc.array(int16, { minLength: 1, maxLength: 20 }),
        fc.array(other, { maxLength: 6 }),
        fc.array(fc.nat(), { minLength: 8, maxLength: 8 }),
        (values, others, keys) => {
          const chunks = [chunk("fmt ", formatBody()), chunk("data", samples16(values)), ...others];
          const shuffled = chunks
            .map((body, i) => ({ body, key: keys[i]! }))
            .sort((a, b) => a.key - b.key)
            .map(({ body }) => body);
          const recording = openWav(memoryByteSource(riff(shuffled)));
          expect([...recording.read(0, 99)[0]!]).toEqual(values.map((value) => value / 32_768));
          expect(recording.decodingNotes).toEqual([]);
        },
      ),
    );
  });

  it("reads the same samples however the reading is split", () => {
    // 6 bytes a frame do not divide the 64 KiB that are decoded at a time, and 30,000 frames are three pieces.
    const frameCount = 30_000;
    const data = Array.from({ length: frameCount * 6 }, (_, i) => (i * 7919 + (i >> 8)) & 0xff);
    const bytes = riff([chunk("fmt ", formatBody({ channelCount: 2, bits: 24 })), chunk("data", data)]);
    const whole = openWav(memoryByteSource(bytes)).read(0, frameCount);
    // A source that hands out one buffer again and again, as a file source does.
    const buffer = new Uint8Array(1 << 16);
    const source: ByteSource = {
      sizeBytes: bytes.length,
      read(offset, length) {
        const part = bytes.subarray(offset, offset + length);
        buffer.set(part);
        return buffer.subarray(0, part.length);
      },
    };
    const recording = openWav(source);
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 30_050 }), fc.nat(30_050), (start, count) => {
        const part = recording.read(start, count);
        expect(part.map((channel) => channel.length)).toEqual(part.map(() => part[0]!.length));
        for (const [c, channel] of part.entries()) {
          const expected = whole[c]!.subarray(Math.max(0, start), Math.max(0, start + count));
          expect(Buffer.compare(Buffer.from(channel.buffer), Buffer.from(expected.slice().buffer))).toBe(0);
        }
        // Into arrays of before, where they are long enough: the same samples, in their memory.
        const into = whole.map(() => new Float32Array(9000).fill(7));
        const again = recording.read(start, count, into);
        for (const [c, channel] of again.entries()) {
          expect(channel).toEqual(part[c]);
          expect(channel.buffer === into[c]!.buffer).toBe(channel.length <= 9000);
        }
      }),
      { numRuns: 50 },
    );
    expect(recording.isBounded).toBe(true);
    expect(recording.read(Number.NaN, 2)[0]?.length).toBe(0);
    expect(recording.read(0, -1)[0]?.length).toBe(0);
    expect(recording.read(0, Number.POSITIVE_INFINITY)[0]?.length).toBe(frameCount);
  });

  const VALID = [
    riff([chunk("fmt ", formatBody()), chunk("LIST", ascii("INFO")), chunk("data", samples16([1, 2, 3, 4]))]),
    riff([chunk("data", samples16([1, 2, 3, 4])), chunk("fmt ", extensibleBody({ channelCount: 2 }))]),
    riff(
      [
        chunk("ds64", Array(28).fill(0)),
        chunk("fmt ", formatBody({ tag: 6, bits: 8 })),
        chunk("data", [1, 2, 3], { sizeBytes: 0xffffffff }),
      ],
      "RF64",
    ),
  ];

  it("throws nothing but AnalysisError at damaged files and at random bytes, and stays within bounds", () => {
    const damaged = fc
      .tuple(
        fc.constantFrom(...VALID),
        fc.array(fc.tuple(fc.nat(110), fc.constantFrom(0, 1, 2, 3, 7, 0x7f, 0x80, 0xfe, 0xff, 0x20, 0x64)), {
          maxLength: 6,
        }),
        fc.integer({ min: 0, max: 120 }),
      )
      .map(([bytes, changes, length]) => {
        const copy = bytes.slice();
        for (const [at, value] of changes) if (at < copy.length) copy[at] = value;
        return copy.slice(0, length);
      });
    const random = fc
      .tuple(fc.boolean(), fc.uint8Array({ maxLength: 200 }))
      .map(([header, bytes]) => (header ? Uint8Array.from([...riff([]), ...bytes]) : bytes));
    let opened = 0;
    fc.assert(
      fc.property(fc.oneof(damaged, damaged, random), (bytes) => {
        let calls = 0;
        const source: ByteSource = {
          sizeBytes: bytes.length,
          read(offset, length) {
            calls++;
            // Nothing is asked for that is not there: no promise in the file is believed.
            expect(offset >= 0 && length >= 0 && offset + length <= bytes.length).toBe(true);
            return bytes.subarray(offset, offset + length);
          },
        };
        try {
          const recording = openWav(source);
          const channels = recording.read(0, 1e9);
          expect(channels.length).toBe(recording.channelCount);
          for (const channel of channels) expect(channel.length).toBe(recording.frameCount);
          expect(recording.frameCount * recording.channelCount).toBeLessThanOrEqual(bytes.length);
          opened++;
        } catch (error) {
          if (!(error instanceof AnalysisError)) throw error;
        }
        // A chunk takes at most two reads, and at most two walks; eight bytes a chunk at least.
        expect(calls).toBeLessThanOrEqual(10 + bytes.length);
      }),
      { numRuns: 2000 },
    );
    // Both outcomes have to be met, or the test says nothing.
    expect(opened).toBeGreaterThan(100);
    expect(opened).toBeLessThan(1900);
  });
});

describe("files by the wavefile package", () => {
  const FORMATS = [
    ["8", 2 ** 7, 128],
    ["16", 2 ** 15, 0],
    ["24", 2 ** 23, 0],
    ["32", 2 ** 31, 0],
    ["32f", 1, 0],
    ["64", 1, 0],
  ] as const;

  it("gives the samples that were written", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FORMATS),
        fc.constantFrom("RIFF", "RIFX", "RF64"),
        fc.integer({ min: 1, max: 5 }),
        fc.constantFrom(8000, 44_100, 48_000, 384_000),
        fc.array(fc.integer({ min: -128, max: 127 }), { minLength: 5, maxLength: 60 }),
        ([format, fullScale, offset], container, channelCount, rateHz, eighths) => {
          const frameCount = Math.floor(eighths.length / channelCount);
          // Multiples of 1/128 with odd low bytes where there are any: exact in every format.
          const lowBits = fullScale > 128 ? 37 : 0;
          const written = Array.from({ length: channelCount }, (_, c) =>
            Array.from(
              { length: frameCount },
              (_, n) => (eighths[n * channelCount + c]! / 128) * fullScale + lowBits + offset,
            ),
          );
          const file = new wavefile.WaveFile();
          file.fromScratch(channelCount, rateHz, format, channelCount === 1 ? written[0]! : written, {
            container,
          });
          const recording = openWav(memoryByteSource(file.toBuffer()));
          expect(recording).toMatchObject({ channelCount, sampleRateHz: rateHz, frameCount });
          // Exact but for 32 bits, which a 32-bit float rounds as Math.fround does.
          expect(recording.read(0, frameCount).map((channel) => [...channel])).toEqual(
            written.map((channel) => channel.map((value) => Math.fround((value - offset) / fullScale))),
          );
        },
      ),
      { numRuns: 300 },
    );
  });
});
