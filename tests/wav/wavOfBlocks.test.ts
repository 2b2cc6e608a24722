import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { memoryByteSource } from "../../src/wav/memoryByteSource.js";
import { openWav } from "../../src/wav/openWav.js";
import { wavOfBlocks } from "../../src/wav/wavOfBlocks.js";

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

describe("wavOfBlocks", () => {
  it("gives back every sample as it was, bit for bit, whatever the blocks", () => {
    const value = fc.float({ noNaN: true, noDefaultInfinity: true });
    const blocks = fc.integer({ min: 1, max: 4 }).chain((channelCount) =>
      fc.array(
        fc.integer({ min: 0, max: 9 }).chain((length) =>
          fc.array(fc.float32Array({ minLength: length, maxLength: length }), {
            minLength: channelCount,
            maxLength: channelCount,
          }),
        ),
        { minLength: 1, maxLength: 6 },
      ),
    );
    fc.assert(
      fc.property(blocks, value, (given, last) => {
        const all = [...given, given[0].map(() => Float32Array.of(last))];
        const recording = openWav(memoryByteSource(joined(wavOfBlocks(all, 44_100))));
        expect(recording.sampleRateHz).toBe(44_100);
        expect(recording.decodingNotes).toEqual([]);
        const read = recording.read(0, recording.frameCount);
        for (const [c, channel] of read.entries()) {
          const wanted = all.flatMap((block) => [...block[c]]);
          expect([...channel]).toEqual(wanted);
        }
      }),
      { seed: 9801 },
    );
  });

  it("writes the head that the format asks for", () => {
    // Multimedia Programming Interface and Data Specifications 1.0 (1991) and New Multimedia Data Types (1994), from memory:
    // RIFF size, WAVE, fmt of 18 bytes with tag 3, fact with the frame count, data.
    const [head, first, second] = wavOfBlocks(
      [
        [Float32Array.of(1, -1), Float32Array.of(0.5, 0)],
        [Float32Array.of(0.25), Float32Array.of(-0.25)],
      ],
      48_000,
    );
    const view = new DataView(head.buffer);
    const text = (at: number) => String.fromCharCode(...head.subarray(at, at + 4));
    expect([text(0), text(8), text(12), text(38), text(50)]).toEqual([
      "RIFF",
      "WAVE",
      "fmt ",
      "fact",
      "data",
    ]);
    expect(view.getUint32(4, true)).toBe(head.length + first.length + second.length - 8);
    expect(view.getUint16(20, true)).toBe(3);
    expect(view.getUint16(22, true)).toBe(2);
    expect(view.getUint32(24, true)).toBe(48_000);
    expect(view.getUint32(28, true)).toBe(48_000 * 8);
    expect(view.getUint16(32, true)).toBe(8);
    expect(view.getUint16(34, true)).toBe(32);
    expect(view.getUint32(46, true)).toBe(3);
    expect(view.getUint32(54, true)).toBe(24);
    // 1 and 0.5 in IEEE 754 single precision, lowest byte first.
    expect([...first.subarray(0, 8)]).toEqual([0, 0, 0x80, 0x3f, 0, 0, 0, 0x3f]);
  });

  it("refuses what is no recording", () => {
    const wrong: [() => unknown, string][] = [
      [() => wavOfBlocks([], 48_000), "recording-empty"],
      [() => wavOfBlocks([[new Float32Array(0)]], 48_000), "recording-empty"],
      [() => wavOfBlocks([[new Float32Array(1)]], 7999), "value-out-of-range"],
      [() => wavOfBlocks([[new Float32Array(1)], []], 48_000), "value-out-of-range"],
      [() => wavOfBlocks([[]], 48_000), "value-out-of-range"],
      [() => wavOfBlocks([[new Float32Array(2), new Float32Array(1)]], 48_000), "value-out-of-range"],
    ];
    for (const [call, code] of wrong) {
      let found = "";
      try {
        call();
      } catch (error) {
        if (error instanceof AnalysisError) found = error.code;
      }
      expect(found).toBe(code);
    }
  });
});
